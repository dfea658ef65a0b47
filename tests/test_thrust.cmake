set(engine base numeric concrete section frame stages traffic bridge thrust)
clench_test(thrust ${engine})
target_sources(test_thrust PRIVATE case_model.c case_events.c case_line.c)
target_link_libraries(test_thrust PRIVATE jansson)
