clench_test(concrete base concrete)
clench_test(concrete_laws base concrete)
clench_test(concrete_time base concrete)
clench_test(concrete_tendon base concrete)
find_program(PYTHON3 python3)
if(PYTHON3)
  add_test(NAME concrete_terms_table COMMAND ${PYTHON3} tools/terms.py --check
    WORKING_DIRECTORY ${CMAKE_SOURCE_DIR})
endif()
