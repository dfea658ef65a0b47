# needs clench
# Seats of the examples with a profile: the JSON's own numbers give every height and rounding again, curve
# and cross slope by another program; chances and haunches; what a raise does; files by their names; a survey
# that is wrong.
cat >look.py <<'END'
import csv, json, math, re, sys
import yaml
name, path, status = sys.argv[1], sys.argv[2], int(sys.argv[3])
a = json.load(open(name + ".json", encoding="utf-8"))
file = yaml.safe_load(open(path, encoding="utf-8"))
UNIT = {"ft": 0.3048, "in": 0.0254, "m": 1, "mm": 0.001, "%": 0.01}
def si(text, none=0.0):
    if text is None: return none
    return sum(float(v) * UNIT[u] for v, u in re.findall(r"(-?[\d.]+) (ft|in|mm|m|%)", str(text)))
p, deck = file["profile"], file["deck"]
point = [(si(q["station"]), si(q["elevation"]), si(q.get("curve"))) for q in p["points"]]
def elevation(s):
    # the two tangents, and half of the offset A L / 8 that falls with the square from the curve's ends
    i = max(k for k in range(len(point) - 1) if k == 0 or s >= point[k][0])
    slope = lambda k: (point[k + 1][1] - point[k][1]) / (point[k + 1][0] - point[k][0])
    y = point[i][1] + slope(i) * (s - point[i][0])
    for k in range(1, len(point) - 1):
        at, _, length = point[k]
        if length and abs(s - at) < length / 2:
            y += (slope(k) - slope(k - 1)) / (2 * length) * (length / 2 - abs(s - at)) ** 2
    return y
n, spacing = file["girders"]["count"], si(file["girders"]["spacing"])
above = si(p.get("grind")) - si(p.get("overlay")) + si(p.get("raise"))
for seat in a["seats"]:
    z = (seat["girder"] - (n + 1) / 2) * spacing
    across = si(p.get("right_slope")) * z if z > 0 else -si(p.get("left_slope")) * z
    wanted = elevation(seat["station_m"]) + across + above
    what = f"{name}: {seat['line']} G{seat['girder']}"
    if abs(wanted - seat["panel_top_wanted_m"]) > 1e-9:
        print(f"{what}: wanted {seat['panel_top_wanted_m']} is not {wanted}")
    height = wanted - si(deck["thickness"]) - seat["girder_top_m"] - seat["moves_later_m"]
    if abs(height - seat["height_m"]) > 1e-9:
        print(f"{what}: height {seat['height_m']} is not {height}")
    step = a["limits"]["step_m"]
    if abs(seat["shim_m"][0] - math.floor(height / step + 0.5) * step) > 1e-9:
        print(f"{what}: shim")
    def below(x): return 0.5 * (1 + math.erf(x / math.sqrt(2)))
    chance = below((a["limits"]["haunch_most_m"] - seat["haunch_most_m"]) / seat["deviation_m"]) \
        - below((a["limits"]["haunch_least_m"] - seat["haunch_least_m"]) / seat["deviation_m"])
    if abs(chance - seat["chance_within_1"]) > 1e-6:
        print(f"{what}: chance {seat['chance_within_1']} is not {chance}")
    if not seat["deviation_survey_m"] <= seat["deviation_m"]: print(f"{what}: deviation")
passed = [h for h in a["haunches"] if h["least_m"] < a["limits"]["haunch_least_m"] - 1e-9
          or h["most_m"] > a["limits"]["haunch_most_m"] + 1e-9]
if bool(passed) != a["proposal"]["wanted"]: print(f"{name}: proposal")
if a["proposal"]["fits"]:
    for h in a["haunches"]:
        by = a["proposal"]["raise_m"]
        if not a["limits"]["haunch_least_m"] - 1e-9 <= h["least_m"] + by <= h["most_m"] + by \
                <= a["limits"]["haunch_most_m"] + 1e-9:
            print(f"{name}: the raise does not keep the haunch at {h}")
if a["met"] != (status == 0): print(f"{name}: met {a['met']}, exit status {status}")
rows = list(csv.reader(open(name + ".csv", encoding="utf-8", newline="")))
if len(rows) != len(a["seats"]) + 1 or any(len(r) != len(rows[0]) for r in rows): print(f"{name}: csv")
for text in open(name + ".txt", encoding="utf-8"):
    if len(text) > 101: print(f"{name}: {len(text)} columns: {text}")
print(f"{name}: {len(a['seats'])} seats, {len(passed)} of {len(a['haunches'])} haunches beyond, exit status {status}")
END
look() {
    clench seat "$2" --survey "$3" --json -o "$1.csv" >"$1.json"
    status=$?
    { clench seat "$2" --survey "$3"; clench seat "$2" --survey "$3" --units SI; } >"$1.txt"
    /usr/bin/python3 look.py "$1" "$2" "$status"
    grep -wn 'nan\|inf' "$1.txt"
}
us=$ROOT/examples/causeway.yaml us_survey=$ROOT/examples/causeway-survey.csv
si=$ROOT/examples/two-span-metric.yaml si_survey=$ROOT/examples/two-span-metric-survey.csv
look causeway "$us" "$us_survey"
look metric "$si" "$si_survey"
sed -n '/^  haunch/,/^  moves/p;/NOT KEPT/,/^  mind.*top_warmer/p' causeway.txt | head -14
sed 's/^  left_end: 4230 ft/&\n  raise: 0.3 in/' "$us" >raised.yaml
look raised raised.yaml "$us_survey"
clench seat "$us" --survey "$us_survey" --thrust '1021 kip' --day 'end of life' --json >late.json
echo "exit status $?"
/usr/bin/python3 -c 'import json; a = json.load(open("late.json")); print(a["day"], len(a["seats"]))'
clench seat "$us" --survey "$us_survey" -o a.pdf --html a.html --date 2031-05-04 >/dev/null
clench seat "$us" --survey "$us_survey" -o b.pdf --date 2031-05-04 >/dev/null
cmp a.pdf b.pdf && head -c 5 a.pdf && echo && grep -c '<svg' a.html
clench seat "$us" --survey "$us_survey" -o a.json >/dev/null; cmp a.json causeway.json && echo 'the same JSON'
echo '-- refused'
clench seat "$us"; echo "exit status $?"
clench seat "$us" --survey nowhere.csv; echo "exit status $?"
clench seat "$ROOT/examples/single-tub.yaml" --survey "$us_survey" --thrust '1000 kip'; echo "exit status $?"
clench seat "$us" --survey "$us_survey" --day tomorrow; echo "exit status $?"
clench seat "$us" --survey "$us_survey" --day '1 day' --thrust '1000 kip'; echo "exit status $?"
cp "$us_survey" own.csv
clench seat "$us" --survey own.csv -o own.csv; echo "exit status $?"
sed '30s/,[0-9.]*,$/,33.9,/' "$us_survey" >wild.csv
clench seat "$us" --survey wild.csv --thrust '1000 kip'; echo "exit status $?"
sed 's/elevation \[ft\]/elevation [m]/' "$us_survey" >metres.csv
clench seat "$us" --survey metres.csv --thrust '1000 kip'; echo "exit status $?"
sed '20,24d' "$us_survey" >gap.csv
clench seat "$us" --survey gap.csv --thrust '1000 kip'; echo "exit status $?"
