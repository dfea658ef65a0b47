clench_test(examples base numeric concrete section frame panel stages traffic bridge thrust text)
target_link_options(test_examples PRIVATE -Wl,--wrap=arena_free)
find_program(PYTHON3 python3)
if(PYTHON3)
  add_test(NAME examples_si_twin COMMAND sh -c
    "${PYTHON3} tools/make-si tests/data/us.yaml | cmp - tests/data/si.yaml"
    WORKING_DIRECTORY ${CMAKE_SOURCE_DIR})
endif()
