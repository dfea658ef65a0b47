clench_test(section base section)
