# needs clench
# What was built by the log of an invented day, its life, and the record to sign. Hashes are masked.
mask() { sed -E 's/[0-9a-f]{64}/HASH/g'; }
cp "$ROOT/examples/steel-continuous.yaml" b.yaml
printf 'jacks: {count: 12, size: 400 ton, sets: 2, stroke: 8 in, gauge_range: 10000 psi, gauge_division: 50 psi}\n' >>b.yaml
clench site open b.yaml --points "gap -18 ft, gap 18 ft, slip left, rise 1" | mask
clench site fit b.yaml
echo "exit status $?"
clench site record b.yaml
echo "exit status $?"
# a day without chance: 4 % more movement, girders 2 % softer, a gauge 1 % low, the deck 2 degF warmer at the end
clench jacking b.yaml --json >plan.json
/usr/bin/python3 - >day.csv <<'P'
import json
plan = json.load(open('plan.json'))['plans'][0]
jacks, load = plan['jacks'], plan['loading']
rise = [w for w in plan['watched'] if w['what'] == 'girder'][0]['move_m']
def opening(force):
    i = max(k for k in range(len(load) - 1) if load[k]['force_N'] <= force)
    a, b = load[i], load[i + 1]
    part = (force - a['force_N']) / (b['force_N'] - a['force_N'])
    return a['opening']['expected_m'] + part * (b['opening']['expected_m'] - a['opening']['expected_m'])
def row(minute, step, phase, force, gap, up, warm, cell, who):
    psi = force / jacks['count'] / jacks['calibration_slope_m2'] / 6894.757
    print('2031-05-04T%02d:%02d:00Z,%d,%s,%.0f,%.0f,%.3f,%.3f,0,%.3f,%.1f,60,%s,%s' % (
        9 + minute // 60, minute % 60, step, phase, psi, psi, gap / 0.0254, gap / 0.0254 + 1, up / 0.0254,
        60 + warm, '%.0f' % (cell / 4448.22) if cell else '', who))
print('time,step,phase,pressure 1 [psi],pressure 2 [psi],move 1 [in],move 2 [in],move 3 [in],move 4 [in],'
      'deck [degF],girder [degF],cell [kip],who')
row(0, 0, 'pump', 0, 0, 0, 0, 0, 'ab')
minute, before, low = 0, 0, 0
for i, step in enumerate(plan['steps']):
    for k in range(1, 5):
        minute += 3
        force = before + (step['force_N'] - before) * k / 4
        up = low + (rise[i] - low) * k / 4
        row(minute, i + 1, 'pump', force, opening(force) * 1.04, up * 1.01 / 0.98, 0.1 * i, force * 1.01, 'ab')
    before, low = step['force_N'], rise[i]
for k in range(6):
    minute += 5
    row(minute, len(plan['steps']), 'held', before, opening(before) * 1.04, low * 1.01 / 0.98, 1 + 0.2 * k, before * 1.01, 'cd')
for k in range(2):
    minute += 5
    row(minute, len(plan['steps']), 'nuts', 0, opening(before) * 1.04, low * 1.01 / 0.98, 2, 0, 'cd')
P
clench site import b.yaml --rows day.csv | mask
clench site fit b.yaml --calendar 2031-01-14
echo "exit status $?"
clench site fit b.yaml --json >fit.json
/usr/bin/python3 -c "
import json
d = json.load(open('fit.json'))
print(sorted(d), d['fit']['gauge']['told'], d['fit']['girder']['told'], d['life']['runs'], d['life']['calendar'])"
clench site fit b.yaml --calendar 14.1.2031
echo "exit status $?"
clench site record b.yaml -o record.pdf --html record.html --date 2031-05-05 | mask
head -c 5 record.pdf
echo
clench site record b.yaml -o again.pdf --date 2031-05-05 | mask
cmp record.pdf again.pdf && echo the same bytes
grep -o 'Force against movement[^<]*' record.html | head -1
grep -c 'phone\|<svg' record.html | sed 's/^[1-9].*/pictures/'
