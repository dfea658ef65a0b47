clench_test(numeric base numeric)
clench_test(robust base numeric)
