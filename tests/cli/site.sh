# needs clench
# The log of a jacking day: opened, readings judged, the same again, struck, logger's rows, export, the
# chain, tampering by SQL, what is refused. Hashes and hours of writing are masked.
mask() { sed -E 's/[0-9a-f]{64}/HASH/g;s/20[0-9]{2}-[0-9]{2}-[0-9]{2}T[0-9:]{8}Z,/WRITTEN,/'; }
sed '/^jacks:/,/^[a-z]*:/{/^jacks:/d;/^  /d}' "$ROOT/examples/single-tub.yaml" >b.yaml
printf 'jacks: {count: 12, size: 150 ton, sets: 2, stroke: 6 in, closed_height: 14 in}\n' >>b.yaml
clench site show b.yaml
echo "exit status $?"
clench site open b.yaml --points "gap -15 ft, gap 15 ft, slip left" | mask
clench site open b.yaml --points "gap -15 ft, gap 15 ft, slip left" | mask
clench site open b.yaml
echo "exit status $?"
# a full disk is told, and the log stays whole (the reading before was not there)
(ulimit -f 40; clench site add b.yaml --id full --time 2031-05-04T08:00:00Z --step 0 --pressure '0 psi')
echo "exit status $?"
clench site verify b.yaml | mask
# a disk that is full between a reading and its verdict: the verdict is said all the same
for pad in 1 200 400 600 800; do
    cp b.yaml.site.db c.yaml.site.db
    limit=$((($(stat -c %s c.yaml.site.db) + 20000) / 512)) # of 512 bytes
    status=0 number=0
    while [ "$status" -ne 4 ] && [ "$number" -lt 40 ]; do
        number=$((number + 1))
        status=0
        (ulimit -f "$limit"; clench site add c.yaml --step 0 --pressure '0 psi, 0 psi' --who ab \
            --move '0 in, 0 in, 0 in' --remark "$(printf '%*s' "$pad" '' | tr ' ' x)") >said 2>&1 || status=$?
    done
    if grep -q 'its verdict is not' said; then break; fi
done
sed 's/record [0-9]*/record N/' said | mask
echo "exit status $status"
clench site verify c.yaml | sed 's/^[0-9]*/N/' | mask
# what the plan expects, read from the plan
clench jacking b.yaml --json >plan.json
expect() { /usr/bin/python3 -c "
import json
step = json.load(open('plan.json'))['plans'][0]['steps'][$1 - 1]
print('%.0f psi, %.0f psi|%.3f in, %.3f in, 0 in' % (2 * (step['pressure_Pa'] / 6894.757,) + 2 * (step['opening']['expected_m'] / 0.0254 * $2,)))"; }
add() { clench site add b.yaml --deck '60 degF' --girder '60 degF' --who ab "$@" | mask; }
add --id zero --time 2031-05-04T09:00:00Z --step 0 --pressure '0 psi, 0 psi' --move '0 in, 0 in, 0 in'
for step in 1 2 3; do
    words=$(expect $step 1)
    add --id "r$step" --time "2031-05-04T09:${step}0:00Z" --step $step --pressure "${words%|*}" --move "${words#*|}" | head -n 2
done
words=$(expect 4 2)
add --id wild --time 2031-05-04T09:40:00Z --step 4 --pressure "${words%|*}" --move "${words#*|}" | head -n 2
add --id wild --time 2031-05-04T09:40:00Z --step 4 --pressure "${words%|*}" --move "${words#*|}" | head -n 1
add --id wild --time 2031-05-04T09:40:00Z --step 4 --pressure "1 psi"
clench site strike b.yaml --record 11 --why 'read the wrong dial' --who ab | mask | head -n 2
clench site strike b.yaml --record 11 --why 'read the wrong dial' --who ab | mask | head -n 1
clench site strike b.yaml --record 99 --why x --who ab
clench site strike b.yaml --record 3
clench site add b.yaml --step 1 --pressure 2000
clench site add b.yaml --step 1 --time 2031-05-04T09:41
clench site add b.yaml --step 1 --move '1 in, 1 in, 1 in, 1 in'
clench site ad b.yaml
clench site
echo "exit status $?"
cat >rows.csv <<'END'
Stamp [UTC],Pump [psi],Left [in],Right [in]
2031-05-04 09:50:00,0,0,0
2031-05-04 09:50:10,0,0,0
2031-05-04 09:50:10,0,0,0
2031-05-04 09:50:40,0,0,0
END
printf 'time: Stamp\npressure 1: Pump\nmove 1: Left\n' >map.yaml
clench site import b.yaml --rows rows.csv --map map.yaml --step 3 --phase back | mask | head -n 5
clench site import b.yaml --rows rows.csv --map map.yaml --step 3 --phase back | mask | sed -n 4p
sed 's/50:40,0/50:40,x/' rows.csv >bad.csv
clench site import b.yaml --rows bad.csv --map map.yaml --step 3
echo "exit status $?"
clench site show b.yaml | mask | head -n 12
clench site export b.yaml | mask | cut -d, -f1-14 | head -n 7
clench site export b.yaml --json -o log.json && /usr/bin/python3 -c "
import json
log = json.load(open('log.json'))
print(len(log['readings']), 'readings, struck:', [r['record'] for r in log['readings'] if 'struck_by_record' in r])"
clench site verify b.yaml | mask
hash=$(clench site verify b.yaml | sed 's/.* //')
clench site verify b.yaml --hash "$hash" | sed -n 2p
clench site verify b.yaml --hash 00 | sed -n 2p
/usr/bin/python3 -c "
import sqlite3
db = sqlite3.connect('b.yaml.site.db')
for sql in ('UPDATE record SET body = 1', 'DELETE FROM record'):
    try:
        db.execute(sql)
    except sqlite3.DatabaseError as refused:
        print(refused)
db.execute('DROP TRIGGER record_stays')
db.execute('UPDATE record SET body = replace(body, \'60 degF\', \'61 degF\') WHERE number = 3')
db.commit()"
clench site verify b.yaml
echo "exit status $?"
