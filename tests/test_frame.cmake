clench_test(frame base numeric frame)
clench_test(frame_forms base numeric frame)
