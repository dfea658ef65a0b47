# tools/check-layers refuses what points up, sideways or out, and accepts the rest.
mkdir -p src/low src/left src/right src/outer include/clench
printf 'low\nleft right\n-- the outer ring --\nouter\n' >src/layers
echo '#include "clench/low.h"' >include/clench/left.h
echo '#include <math.h>' >include/clench/low.h
: >include/clench/right.h
: >src/left/own.h
printf '#include "clench/left.h"\n#include "clench/low.h"\n#include "own.h"\n' >src/left/a.c
printf '#include <yaml.h>\n#include "clench/right.h"\nint main(void) { exit(0); }\n' >src/outer/a.c
"$ROOT/tools/check-layers" . && echo accepted

echo '#include "clench/right.h"' >>src/left/a.c
echo '#include "clench/left.h"' >>src/low/a.c
echo '#include "../left/own.h"' >>src/right/a.c
echo '#include "gone.h"' >>src/right/a.c
echo '#include <yaml.h>' >>src/right/a.c
echo 'void f(void) { setlocale(0, ""); printf("x"); }' >>src/right/a.c
mkdir src/stray && echo '#include "clench/nothing.h"' >src/stray/a.c
"$ROOT/tools/check-layers" .
