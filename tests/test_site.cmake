clench_test(site site jacking checks text thrust bridge traffic stages frame panel section concrete numeric sheet base)
target_sources(test_site PRIVATE bridge_file.c site_truth.c)
