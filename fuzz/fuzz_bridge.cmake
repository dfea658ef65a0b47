# Included by CMakeLists.txt before its loop over the targets.
list(APPEND CLENCH_FUZZ_TARGETS bridge)
set(folders_bridge bridge traffic stages frame section concrete numeric text base)
