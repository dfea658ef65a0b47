# tools/run-ctest counts cases, and counts a program that dies or was not built as one failure.
mkdir -p bin build/Testing/Temporary
cat >bin/ctest <<'END'
#!/bin/sh
mkdir -p build/Testing/Temporary
cp "$LOG" build/Testing/Temporary/LastTest.log
cat "$PRINTED"
exit "$STATUS"
END
chmod +x bin/ctest
block() { # NAME RESULT LINE...
    printf '1/9 Testing: %s\nOutput:\n' "$1"
    result=$2
    shift 2
    printf '%s\n' "$@" '<end of output>' "Test $result." ''
}
export LOG=log PRINTED=printed STATUS
count() {
    STATUS=$1
    PATH=$PWD/bin:$PATH "$ROOT/tools/run-ctest" build >out
    echo "exit $?"
    tail -n 1 out
}
: >printed
{
    block two Passed '[  PASSED  ] 12 test(s).' '[  PASSED  ] 3 test(s).'
    block plain Passed 'a program that counts nothing'
} >log
count 0
{
    block some Failed '[  PASSED  ] 12 test(s).' '[  FAILED  ] 2 test(s), listed below:'
    block died Failed '[  PASSED  ] 5 test(s).' 'then a signal'
    printf '3/9 Testing: cut off\nOutput:\n'
} >log
echo '4/9 Test #4: gone ...***Not Run   0.00 sec' >printed
count 8
