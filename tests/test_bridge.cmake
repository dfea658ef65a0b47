foreach(name IN ITEMS bridge bridge_lines bridge_wheel bridge_case bridge_ways)
  clench_test(${name} base numeric concrete section frame panel stages traffic bridge text)
  target_sources(test_${name} PRIVATE bridge_file.c)
endforeach()
# Another reader of the same table: a general validator takes every example (see tools/check-schema).
file(GLOB bridge_examples CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/examples/*.yaml
  ${CMAKE_SOURCE_DIR}/examples/refused/*.yaml)
add_test(NAME bridge_schema
  COMMAND ${CMAKE_SOURCE_DIR}/tools/check-schema $<TARGET_FILE:test_bridge> ${bridge_examples})
clench_test(thrust_review base numeric concrete section frame panel stages traffic bridge thrust text)
target_sources(test_thrust_review PRIVATE bridge_file.c)
clench_test(thrust_working base numeric concrete section frame panel stages traffic bridge thrust text)
target_sources(test_thrust_working PRIVATE bridge_file.c)
