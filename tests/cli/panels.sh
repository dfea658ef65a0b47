# needs clench
# The panels of every example and of bridges with skew, crown, curve and blockouts: volumes, weights and
# centres from the JSON's own outlines, by another program, equal those of the schedule; panels and gap
# make up each run; marks are unique; pages; what is refused.
cat >look.py <<'END'
import json, math, sys
name = sys.argv[1]
a = json.load(open(name + ".json", encoding="utf-8"))
kinds = {k["kind"]: k for k in a["kinds"]}
def near(x, y, what, tolerance=1e-9):
    if abs(x - y) > tolerance * max(1, abs(y)):
        print(f"{name}: {what}: {x} is not {y}")
for k in a["kinds"]:
    # thin slices across, the thickness in their middles
    n, z0, z1 = 4000, k["from_across_m"], k["to_across_m"]
    half, area, volume, x, z = a["deck_width_m"] / 2, 0, 0, 0, 0
    for i in range(n):
        at = z0 + (i + 0.5) * (z1 - z0) / n
        left = k["left_m"] + at * k["left_slope_1"]
        right = k["right_m"] + at * k["right_slope_1"]
        t = k["edge_thickness_m"] + k["rise_1"] * (half - abs(at))
        piece = (right - left) * (z1 - z0) / n
        area += piece
        volume += piece * t
        x += piece * t * (left + right) / 2
        z += piece * t * at
    near(k["area_m2"], area, "area of " + k["kind"], 1e-6)
    near(k["solid_m3"], volume, "volume of " + k["kind"], 1e-6)
    for h in k["pockets"] + k["blockouts"]:
        t = k["edge_thickness_m"] + k["rise_1"] * (half - abs(h["across_m"]))
        hole = h["length_m"] * h["width_m"] * min(t, h["depth_m"] or t)
        volume, x, z = volume - hole, x - hole * h["along_m"], z - hole * h["across_m"]
    near(k["concrete_m3"], volume, "concrete of " + k["kind"], 1e-6)
    near(k["centre_along_m"], x / volume, "centre of " + k["kind"], 1e-5)
    near(k["centre_across_m"], z / volume, "centre of " + k["kind"], 1e-5)
    if k["panels"] != sum(p["kind"] == k["kind"] for p in a["panels"]):
        print(f"{name}: number of {k['kind']}")
near(a["weight_N"], sum(p["weight_N"] for p in a["panels"]), "weight")
near(a["concrete_m3"], sum(kinds[p["kind"]]["concrete_m3"] for p in a["panels"]), "concrete")
if len({p["mark"] for p in a["panels"]}) != len(a["panels"]):
    print(f"{name}: marks")
across = 2 if a["closure_strip_m"] else 1
for run in a["runs"]:
    total = sum(p["to_m"] - p["from_m"] for p in a["panels"] if p["run"] == run["run"])
    near(total / across + run["gap_to_m"] - run["gap_from_m"], run["length_m"], run["run"])
for text in open(name + ".txt", encoding="utf-8"):
    if len(text) > 101:
        print(f"{name}: {len(text)} columns: {text}")
END
look() {
    clench panels "$2" --json >"$1.json"
    status=$?
    { clench panels "$2"; clench panels "$2" --units SI; } >"$1.txt"
    /usr/bin/python3 look.py "$1"
    grep -wn 'nan\|inf' "$1.txt"
    echo "$1: $(sed -n 3p "$1.txt")"
    echo "$1: exit status $status"
}
for file in "$ROOT"/examples/*.yaml; do look "$(basename "$file" .yaml)" "$file"; done
base=$ROOT/examples/steel-continuous.yaml
sed 's/^deck:/deck:\n  skew_degrees: 17/;s/^panels:/panels:\n  skew: all\n  layout: least panels/' "$base" >skew.yaml
sed 's/^deck:/deck:\n  skew_degrees: -25\n  crossfall: 1.5 %/;s/^panels:/panels:\n  crown: thickened/' "$base" >ends.yaml
sed 's/^deck:/deck:\n  plan_radius: 900 ft/;s/^panels:/panels:\n  layout: least kinds\n  blockouts:\n    - {at: 45 ft, across: 17 ft, along: 18 in, wide: 2 ft}\n    - {at: 51 ft, across: 0 ft, along: 4 ft, wide: 2 ft, deep: 3 in}/' "$base" >curve.yaml
sed 's/^panels:/panels:\n  crown: longitudinal closure\n  joint: narrow cast/' "$base" >closure.yaml
for name in skew ends curve closure; do
    look $name $name.yaml
    sed -n '/^  NOT KEPT/,/^Panels whose/p' $name.txt | sed '/^Panels whose/q' | sed '$d'
done
sed 's/^panels:/closing:\n  means: chain pullers\n  temperature: 95 degF\ncasting:\n  bed: 100 ft\n  beds: 2\n  least_age: 90 day\npanels:/' "$base" >yard.yaml
clench panels yard.yaml >yard.txt
echo "exit status $?"
sed -n '/^  NOT KEPT/,/^Panels whose/p;/^Casting/,/^Lifting/p;/^Closing/,/^Schedule/p' yard.txt
clench panels "$base" --date 2031-05-04 -o a.pdf --html page.html >text
clench panels "$base" --date 2031-05-04 -o b.pdf >text
cmp a.pdf b.pdf && echo 'the same pages again'
head -c 5 a.pdf; echo
sed 's/^panels:/casting:\n  bed: 20 ft\npanels:/' "$base" >short.yaml
clench panels short.yaml
echo "exit status $?"
sed 's/^panels:/panels:\n  crown: two planes\n  shortest: 13 ft/' "$base" >wrong.yaml
clench panels wrong.yaml
echo "exit status $?"
