# The page into the binary: the engine as WebAssembly by a configure of its own, web/build, both
# compressed, then as they are into one assembler file. A change in web/ or in the engine passes
# through all of it. Sets page_assembler; the object that holds it needs page_parts.
set(CLENCH_WASM_FILE "" CACHE FILEPATH "an engine built before (preset wasm), to save building it here")
find_program(CLENCH_NODE node REQUIRED)
find_program(CLENCH_NPM npm REQUIRED)
find_program(CLENCH_GZIP gzip REQUIRED)
find_program(CLENCH_BROTLI brotli)
set(page ${PROJECT_BINARY_DIR}/page)
file(MAKE_DIRECTORY ${page})

file(GLOB_RECURSE engine CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/include/clench/*.h
  ${PROJECT_SOURCE_DIR}/src/*.[ch] ${PROJECT_SOURCE_DIR}/src/CMakeLists.txt)
list(FILTER engine EXCLUDE REGEX "/src/(text|store|paper|server|batch|cli)/")
if(CLENCH_WASM_FILE)
  add_custom_command(OUTPUT ${page}/clench.wasm
    COMMAND ${CMAKE_COMMAND} -E copy ${CLENCH_WASM_FILE} ${page}/clench.wasm
    DEPENDS ${CLENCH_WASM_FILE} VERBATIM)
else()
  set(wasm ${PROJECT_BINARY_DIR}/engine-wasm)
  add_custom_command(OUTPUT ${page}/clench.wasm
    COMMAND ${CMAKE_COMMAND} -S ${PROJECT_SOURCE_DIR} -B ${wasm} -G Ninja --log-level=ERROR
      -DCMAKE_BUILD_TYPE=Release -DCLENCH_WERROR=${CLENCH_WERROR}
      # the same bytes wherever the sources lie
      -DCMAKE_C_FLAGS=-fmacro-prefix-map=${PROJECT_SOURCE_DIR}/=
      -DCMAKE_TOOLCHAIN_FILE=${PROJECT_SOURCE_DIR}/tools/wasm.cmake
    COMMAND ${CMAKE_COMMAND} --build ${wasm}
    COMMAND ${CMAKE_COMMAND} -E copy ${wasm}/clench.wasm ${page}/clench.wasm
    COMMAND ${CMAKE_COMMAND} -E touch ${page}/clench.wasm # also where nothing had to be built
    DEPENDS ${engine} ${PROJECT_SOURCE_DIR}/tools/wasm.cmake
    COMMENT "engine as WebAssembly" VERBATIM)
endif()

file(GLOB_RECURSE web CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/web/*)
set(written index.html app.js worker.js app.css)
list(TRANSFORM written PREPEND ${page}/)
add_custom_command(OUTPUT ${written}
  COMMAND ${CMAKE_COMMAND} -E env CLENCH_WEB=${PROJECT_BINARY_DIR}/web
    ${PROJECT_SOURCE_DIR}/web/build ${page}
  COMMAND ${CMAKE_COMMAND} -E touch ${written}
  DEPENDS ${web} COMMENT "page" VERBATIM)

set(page_parts)
set(text ".section .rodata\n")
foreach(name IN ITEMS index.html app.js worker.js app.css clench.wasm)
  string(MAKE_C_IDENTIFIER ${name} symbol)
  set(brotli ${CMAKE_COMMAND} -E touch ${name}.br) # empty: the server leaves it out
  if(CLENCH_BROTLI)
    set(brotli ${CLENCH_BROTLI} -f -q 11 ${name})
  endif()
  add_custom_command(OUTPUT ${page}/${name}.gz ${page}/${name}.br
    COMMAND ${CLENCH_GZIP} -9nkf ${name}
    COMMAND ${brotli}
    # brotli copies the time of its input
    COMMAND ${CMAKE_COMMAND} -E touch ${name}.gz ${name}.br
    WORKING_DIRECTORY ${page} DEPENDS ${page}/${name} COMMENT "" VERBATIM)
  foreach(part IN ITEMS "" gz br)
    set(label asset_${symbol})
    set(file ${page}/${name})
    if(part)
      string(APPEND label _${part})
      string(APPEND file .${part})
    endif()
    list(APPEND page_parts ${file})
    string(APPEND text ".global ${label}, ${label}_end\n.balign 16\n"
      "${label}: .incbin \"${file}\"\n${label}_end: .byte 0\n")
  endforeach()
endforeach()
string(APPEND text ".section .note.GNU-stack,\"\",@progbits\n")
set(page_assembler ${CMAKE_CURRENT_BINARY_DIR}/page.S)
file(CONFIGURE OUTPUT ${page_assembler} CONTENT "${text}" @ONLY)
set_source_files_properties(${page_assembler} PROPERTIES OBJECT_DEPENDS "${page_parts}")
