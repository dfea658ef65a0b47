#include "clench/base.h"

const char *clench_version(void) { return CLENCH_VERSION; }
