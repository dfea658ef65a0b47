clench_test(report report checks sheet figure thrust bridge traffic stages frame section concrete numeric base)
target_sources(test_report PRIVATE show_fixture.c)
