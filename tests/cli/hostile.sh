# needs clench
# Input that means no good: a message each, exit status 2, no page and no answer.
tub=$ROOT/examples/single-tub.yaml
try() { # NAME: the file NAME.yaml
    echo "-- $1"
    clench thrust "$1.yaml" --html out.html --json
    echo "exit $?"
}
change() { # NAME SED: the tub bridge with one change
    sed "$2" "$tub" >"$1.yaml"
    if cmp -s "$tub" "$1.yaml"; then echo "$1 changes nothing"; fi
    try "$1"
}
echo '== values'
change no-unit 's/length: 176 ft/length: 176/'
change other-unit 's/length: 176 ft/length: 176 kip/'
change nan 's/length: 176 ft/length: nan ft/'
change infinite 's/length: 176 ft/length: inf ft/'
change negative 's/length: 176 ft/length: -176 ft/'
change absurd 's/length: 176 ft/length: 1e300 ft/'
change overflow 's/length: 176 ft/length: 1e999 ft/'
change vanishing 's/length: 176 ft/length: 1e-300 ft/'
change decimal-comma 's/length: 176 ft/length: 176,5 ft/'
change many-girders 's/count: 2$/count: 1000000000000/'
change half-girder 's/count: 2$/count: 2.5/'
change days-backwards 's/^climate:/days: {phase_1_cast: 100 day, panels_set: 50 day}\n&/'
echo '== keys'
change unknown 's/^deck:/dek:/'
change duplicate 's/^panels:/deck:/'
# shellcheck disable=SC2016  # a word of sed
change missing '/^climate:/,$d'
change unknown-word 's/kind: tub/kind: tube/'
echo '== files'
printf 'title: t\nspans: &all\n  - length: 176 ft\n  - *all\n' >cyclic.yaml
try cyclic
yes 'spans: x' | head -c 52428800 >fifty-megabytes.yaml
try fifty-megabytes
: >empty.yaml
try empty
printf '\377\376\000s' >not-text.yaml
try not-text
/usr/bin/python3 -c "print('[' * 100000)" >deep.yaml
try deep
/usr/bin/python3 -c "print('spans: [' + '{length: 94 ft}, ' * 100000 + ']')" >many-spans.yaml
try many-spans
echo '== written'
find . -type f ! -name "*.yaml"
