foreach(name IN ITEMS seating seating_grade seating_survey)
  clench_test(${name} text ${CLENCH_FOUND})
  target_sources(test_${name} PRIVATE bridge_file.c stage_make.c seating_case.c)
endforeach()
