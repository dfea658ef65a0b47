clench_test(paper paper report site compare takeoff odds jacking seating checks sheet figure drawing thrust bridge traffic stages frame panel section concrete numeric base)
target_sources(test_paper PRIVATE show_fixture.c)
target_link_libraries(test_paper PRIVATE fontconfig) # to close its caches, for the leak check
