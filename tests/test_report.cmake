clench_test(report report site compare takeoff odds jacking seating checks sheet figure thrust bridge traffic stages frame panel section concrete numeric base)
target_sources(test_report PRIVATE show_fixture.c)
clench_test(package text report site compare takeoff odds jacking seating checks sheet figure thrust bridge traffic stages frame panel section concrete numeric base)
target_sources(test_package PRIVATE show_fixture.c)
