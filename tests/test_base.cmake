clench_test(base base)
clench_test(base_quantity base)
clench_test(base_hash base)
clench_test(base_json base)
