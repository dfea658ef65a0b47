clench_test(desk desk report site compare takeoff odds jacking seating checks sheet figure thrust bridge traffic stages frame panel section concrete numeric base text)
target_sources(test_desk PRIVATE bridge_file.c)
clench_test(desk_blend desk report site compare takeoff odds jacking seating checks sheet figure thrust bridge traffic stages frame panel section concrete numeric base text)
target_sources(test_desk_blend PRIVATE bridge_file.c)
