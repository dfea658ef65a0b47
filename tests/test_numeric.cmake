clench_test(numeric base numeric)
