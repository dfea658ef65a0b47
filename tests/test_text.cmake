clench_test(text text base)
