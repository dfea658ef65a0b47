clench_test(numeric base numeric)
clench_test(robust base numeric)
clench_test(sample base numeric)
