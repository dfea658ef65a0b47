# What a package gets: the program with its page and completion, the library with its headers.
include(GNUInstallDirs)
if(TARGET clench)
  install(TARGETS clench RUNTIME)
  # the page is made from the installed program's own help
  install(CODE "execute_process(
    COMMAND ${PROJECT_SOURCE_DIR}/tools/make-man $<TARGET_FILE:clench> ${PROJECT_VERSION}
    OUTPUT_FILE ${PROJECT_BINARY_DIR}/clench.1 COMMAND_ERROR_IS_FATAL ANY)")
  install(FILES ${PROJECT_BINARY_DIR}/clench.1 DESTINATION ${CMAKE_INSTALL_MANDIR}/man1)
  install(FILES tools/completion.bash RENAME clench
    DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions)
  install(DIRECTORY examples/ DESTINATION ${CMAKE_INSTALL_DOCDIR}/examples OPTIONAL
    FILES_MATCHING PATTERN *.yaml)
endif()
if(TARGET clench_engine)
  install(TARGETS clench_engine ARCHIVE)
  foreach(folder IN LISTS CLENCH_FOUND)
    install(FILES include/clench/${folder}.h DESTINATION ${CMAKE_INSTALL_INCLUDEDIR}/clench)
  endforeach()
  configure_file(tools/clench.pc.in clench.pc @ONLY)
  install(FILES ${PROJECT_BINARY_DIR}/clench.pc DESTINATION ${CMAKE_INSTALL_LIBDIR}/pkgconfig)
endif()
install(FILES LICENSE NOTICE README.md CHANGELOG.md DESTINATION ${CMAKE_INSTALL_DOCDIR})
