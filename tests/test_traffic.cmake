clench_test(traffic base traffic)
clench_test(traffic_laws base traffic)
clench_test(distribution base traffic)
