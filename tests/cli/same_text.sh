# tests/cli/same: one in the last printed digit passes, anything else does not.
try() { printf '%b' "$1" >a; printf '%b' "$2" >b; /usr/bin/python3 "$ROOT/tests/cli/same" a b && echo same || echo different; }
try 'thrust 412.7 kip\n' 'thrust 412.8 kip\n'
try 'thrust 412.7 kip\n' 'thrust 412.9 kip\n'
try '12 joints\n' '13 joints\n'
try 'a\n...\nz\n' 'a\nb\nc\nz\n'
try 'a\n...\nz\n' 'a\nb\nc\n'
try '1.50\n' '1.5\n'
