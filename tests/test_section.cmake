clench_test(section base section)
clench_test(section_shear base section)
