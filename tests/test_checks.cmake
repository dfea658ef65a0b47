foreach(name IN ITEMS checks checks_connections checks_fatigue checks_panels checks_wheel checks_girders checks_deck checks_stresses checks_deflection checks_block)
  clench_test(${name} base numeric sheet concrete section frame panel stages traffic bridge thrust checks text)
  target_sources(test_${name} PRIVATE bridge_file.c checks_case.c)
endforeach()
