clench_test(panel report jacking checks sheet figure thrust bridge traffic stages frame panel section concrete numeric text base)
target_sources(test_panel PRIVATE bridge_file.c)
