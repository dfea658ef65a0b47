# The pages into the binary: their engines as WebAssembly by a configure of its own, web/build, all
# compressed, then as they are into one assembler file. A change in web/ or in the engine passes
# through all of it. Sets page_assembler; the object that holds it needs page_parts.
set(CLENCH_WASM_FILE "" CACHE FILEPATH
  "clench.wasm built before (preset wasm), site.wasm beside it, to save building them here")
find_program(CLENCH_NODE node REQUIRED)
find_program(CLENCH_NPM npm REQUIRED)
find_program(CLENCH_GZIP gzip REQUIRED)
find_program(CLENCH_BROTLI brotli)
set(page ${PROJECT_BINARY_DIR}/page)
file(MAKE_DIRECTORY ${page})

file(GLOB_RECURSE engine CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/include/clench/*.h
  ${PROJECT_SOURCE_DIR}/src/*.[ch] ${PROJECT_SOURCE_DIR}/src/CMakeLists.txt)
list(FILTER engine EXCLUDE REGEX "/src/(text|store|paper|server|batch|cli)/")
set(doors ${page}/clench.wasm ${page}/site.wasm)
if(CLENCH_WASM_FILE)
  cmake_path(GET CLENCH_WASM_FILE PARENT_PATH wasm)
  add_custom_command(OUTPUT ${doors}
    COMMAND ${CMAKE_COMMAND} -E copy ${CLENCH_WASM_FILE} ${wasm}/site.wasm ${page}
    COMMAND ${CMAKE_COMMAND} -E touch ${doors}
    DEPENDS ${CLENCH_WASM_FILE} ${wasm}/site.wasm VERBATIM)
else()
  set(wasm ${PROJECT_BINARY_DIR}/engine-wasm)
  add_custom_command(OUTPUT ${doors}
    COMMAND ${CMAKE_COMMAND} -S ${PROJECT_SOURCE_DIR} -B ${wasm} -G Ninja --log-level=ERROR
      -DCMAKE_BUILD_TYPE=Release -DCLENCH_WERROR=${CLENCH_WERROR}
      # the same bytes wherever the sources lie
      -DCMAKE_C_FLAGS=-fmacro-prefix-map=${PROJECT_SOURCE_DIR}/=
      -DCMAKE_TOOLCHAIN_FILE=${PROJECT_SOURCE_DIR}/tools/wasm.cmake
    COMMAND ${CMAKE_COMMAND} --build ${wasm}
    COMMAND ${CMAKE_COMMAND} -E copy ${wasm}/clench.wasm ${wasm}/site.wasm ${page}
    COMMAND ${CMAKE_COMMAND} -E touch ${doors} # also where nothing had to be built
    DEPENDS ${engine} ${PROJECT_SOURCE_DIR}/tools/wasm.cmake
    COMMENT "engines as WebAssembly" VERBATIM)
endif()

file(GLOB_RECURSE web CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/web/*)
set(written index.html app.js worker.js app.css site.html site.js site.css)
list(TRANSFORM written PREPEND ${page}/)
add_custom_command(OUTPUT ${written}
  COMMAND ${CMAKE_COMMAND} -E env CLENCH_WEB=${PROJECT_BINARY_DIR}/web
    ${PROJECT_SOURCE_DIR}/web/build ${page}
  COMMAND ${CMAKE_COMMAND} -E touch ${written}
  DEPENDS ${web} COMMENT "pages" VERBATIM)
add_custom_command(OUTPUT ${page}/site-worker.js
  COMMAND ${CMAKE_COMMAND} -E env CLENCH_WEB=${PROJECT_BINARY_DIR}/web
    ${PROJECT_SOURCE_DIR}/web/build --worker ${page}
  DEPENDS ${written} ${page}/site.wasm COMMENT "" VERBATIM)

set(page_parts)
set(text ".section .rodata\n")
foreach(name IN ITEMS index.html app.js worker.js app.css clench.wasm
    site.html site.js site.css site-worker.js site.wasm)
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
