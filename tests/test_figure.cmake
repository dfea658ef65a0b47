clench_test(figure figure site compare odds jacking seating checks sheet thrust bridge traffic stages frame panel section concrete numeric base)
target_sources(test_figure PRIVATE show_fixture.c)
