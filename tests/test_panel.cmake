foreach(name IN ITEMS panel bridge_panels)
  clench_test(${name} report site compare takeoff odds jacking seating checks sheet figure thrust bridge traffic stages frame panel section concrete numeric text base)
  target_sources(test_${name} PRIVATE bridge_file.c)
endforeach()
