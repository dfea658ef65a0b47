clench_test(text text base)
clench_test(text_set text base)
