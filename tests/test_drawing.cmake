# The engine as one library: of the report alone what panels need.
clench_test(drawing clench_engine text)
target_sources(test_drawing PRIVATE bridge_file.c)
