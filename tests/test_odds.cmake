clench_test(odds batch odds text thrust bridge traffic stages frame panel section concrete numeric base)
target_sources(test_odds PRIVATE bridge_file.c)
