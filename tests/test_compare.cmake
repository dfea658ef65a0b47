clench_test(compare compare thrust bridge traffic stages frame panel section concrete numeric base text)
target_sources(test_compare PRIVATE bridge_file.c)
