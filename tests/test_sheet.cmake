clench_test(sheet base sheet)
