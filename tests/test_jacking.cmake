foreach(name IN ITEMS jacking jacking_gauge)
  clench_test(${name} jacking checks text thrust bridge traffic stages frame panel section concrete numeric sheet base)
  target_sources(test_${name} PRIVATE bridge_file.c jacking_case.c)
endforeach()
