clench_test(jacking jacking checks text thrust bridge traffic stages frame panel section concrete numeric sheet base)
target_sources(test_jacking PRIVATE bridge_file.c)
