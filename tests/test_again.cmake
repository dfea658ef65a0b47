clench_test(again base numeric concrete section frame panel stages traffic bridge thrust text)
target_sources(test_again PRIVATE bridge_file.c)
