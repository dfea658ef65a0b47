# needs clench
# The drawings of every example and of bridges with skew, crown, curve and blockouts, read back by other
# programs: each DXF is free of errors and has its layers; outlines of panels have the areas that
# `clench panels --json` tells, to 1e-6; numbers of panels, pockets and blockouts, marks; every PDF page
# has its size and its words, none on another; each SVG is well formed. Then what is refused.
cat >look.py <<'END'
import json, re, subprocess, sys, xml.etree.ElementTree as tree
from pathlib import Path
import ezdxf
name, folder = sys.argv[1], Path(sys.argv[1])
a = json.load(open(name + ".json", encoding="utf-8"))
kinds = {k["kind"]: k for k in a["kinds"]}
per_m = 1 / 0.0254 if sys.argv[2] == "US" else 1000
layers = """FRAME TITLE TEXT TABLE DIMENSION CENTRELINE HIDDEN PANEL ANCHOR-PANEL CONCRETE-CUT JOINT
JOINT-KEY POCKET BLOCKOUT BAR CONNECTOR LIFTING CENTRE-OF-GRAVITY GAP JACK GIRDER HAUNCH SUPPORT BED
SECOND-PHASE""".split()
def wrong(what): print(f"{name}: {what}")
def near(x, y, what):
    if abs(x - y) > 1e-6 * abs(y): wrong(f"{what}: {x} is not {y}")
def read(path):
    file = ezdxf.readfile(path)
    if file.dxfversion != "AC1009": wrong(f"{path.name}: release {file.dxfversion}")
    audit = file.audit()
    for error in audit.errors + audit.fixes: wrong(f"{path.name}: {error.message}")
    missing = set(layers) - {layer.dxf.name for layer in file.layers}
    if missing: wrong(f"{path.name}: layers {missing}")
    for entity in file.modelspace():
        if entity.dxf.layer not in layers: wrong(f"{path.name}: an item on layer {entity.dxf.layer}")
    return file.modelspace()
def rings(space, *on):
    return [[(v.dxf.location.x, v.dxf.location.y) for v in p.vertices]
            for p in space.query("POLYLINE") if p.dxf.layer in on and p.is_closed]
def area(ring):
    return abs(sum(x * t - s * y for (x, y), (s, t) in zip(ring, ring[1:] + ring[:1]))) / 2
def words(space, layer): return [t.dxf.text for t in space.query("TEXT") if t.dxf.layer == layer]
plan_areas, plan_words, seen = [], set(), set()
for path in sorted(folder.glob("*.dxf")):
    space = read(path)
    if not words(space, "DIMENSION") and not re.match("shims|sequence|order", path.stem) and (
            name != "curve" or path.stem[:7] != "panels-"):
        wrong(f"{path.name}: no dimensions")
    outlines = rings(space, "PANEL", "ANCHOR-PANEL")
    if path.stem.startswith("panels-"):
        plan_areas += [area(r) for r in outlines]
        plan_words |= set(words(space, "TEXT"))
    if not path.stem.startswith("panel-"): continue
    kind = kinds[path.stem[6:].upper()]
    seen.add(kind["kind"])
    if len(outlines) != 1: wrong(f"{path.name}: {len(outlines)} outlines")
    near(area(outlines[0]) / per_m**2, kind["area_m2"], "area of " + kind["kind"])
    across = [x for x, y in outlines[0]]
    near((max(across) - min(across)) / per_m, kind["to_across_m"] - kind["from_across_m"],
         "width of " + kind["kind"])
    for layer, holes in ("POCKET", kind["pockets"]), ("BLOCKOUT", kind["blockouts"]):
        drawn = rings(space, layer)
        if len(drawn) != len(holes): wrong(f"{path.name}: {len(drawn)} on {layer}")
        near(sum(map(area, drawn)) / per_m**2 + 1, sum(h["length_m"] * h["width_m"] for h in holes) + 1,
             f"{layer} of " + kind["kind"])
    points = [c for c in space.query("CIRCLE") if c.dxf.layer == "LIFTING"]
    if len(points) != 2 * max(l["points_in_a_row"] for l in kind["lifting"]):
        wrong(f"{path.name}: {len(points)} lifting points")
if seen != set(kinds): wrong(f"kinds {seen}")
if len(plan_areas) != len(a["panels"]): wrong(f"{len(plan_areas)} panels in plan")
want = sorted(kinds[p["kind"]]["area_m2"] for p in a["panels"])
for x, y in zip(sorted(plan_areas), want): near(x / per_m**2, y, "area in plan")
lost = {p["mark"] for p in a["panels"]} - plan_words
if lost: wrong(f"marks {lost}")
for path in folder.glob("*.svg"): tree.parse(path)

# The pages.
pdf = str(folder / "drawings.pdf")
info = subprocess.run(["pdfinfo", "-f", "1", "-l", "999", pdf], capture_output=True, text=True).stdout
sizes = set(re.findall(r"Page +\d+ size: +([\d.]+ x [\d.]+)", info))
pages = int(re.search(r"Pages: +(\d+)", info)[1])
if pages != len(list(folder.glob("*.svg"))): wrong(f"{pages} pages")
box = subprocess.run(["pdftotext", "-bbox", pdf, "-"], capture_output=True, text=True).stdout
number = r'xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">([^<]*)'
for page, part in enumerate(box.split("<page ")[1:], 1):
    found = [(*map(float, w[:4]), w[4]) for w in re.findall(number, part)]
    for need in "PRELIMINARY", "engineer", "units:", "scale:":
        if not any(w[4] == need for w in found): wrong(f"page {page} does not say {need}")
    # boxes have room for accents and tails: letters themselves take less
    small = []
    for x, y, s, t, text in found:
        upright = t - y > s - x and len(text) > 2
        dx, dy = (0.28 * (s - x), 0.01) if upright else (0.01, 0.28 * (t - y))
        small.append((x + dx, y + dy, s - dx, t - dy, text))
    for i, b in enumerate(small):
        for c in small[:i]:
            if b[0] < c[2] and c[0] < b[2] and b[1] < c[3] and c[1] < b[3]:
                wrong(f"page {page}: '{b[4]}' on '{c[4]}'")
print(f"{name}: {pages} pages of {sorted(sizes)}, {len(plan_areas)} panels, {len(kinds)} kinds, "
      f"{len(list(folder.glob('*.dxf')))} DXF files")
END
look() {
    clench panels "$2" --json >"$1.json"
    clench draw "$2" -o "$1" --date 2031-05-04 --units "$3" >"$1.txt"
    status=$?
    /usr/bin/python3 look.py "$1" "$3"
    [ $status -le 1 ] || echo "$1: exit status $status"
}
for file in "$ROOT"/examples/*.yaml; do
    units=US
    grep -q '^units: SI' "$file" && units=SI
    look "$(basename "$file" .yaml)" "$file" $units
done
base=$ROOT/examples/steel-continuous.yaml
sed 's/^deck:/deck:\n  skew_degrees: 17/;s/^panels:/panels:\n  skew: all\n  layout: least panels/' "$base" >skew.yaml
sed 's/^deck:/deck:\n  skew_degrees: -25\n  crossfall: 1.5 %/;s/^panels:/panels:\n  crown: thickened/' "$base" >ends.yaml
sed 's/^deck:/deck:\n  plan_radius: 900 ft/;s/^panels:/panels:\n  layout: least kinds\n  blockouts:\n    - {at: 45 ft, across: 17 ft, along: 18 in, wide: 2 ft}\n    - {at: 51 ft, across: 0 ft, along: 4 ft, wide: 2 ft, deep: 3 in}/' "$base" >curve.yaml
sed 's/^deck:/deck:\n  crossfall: 2 %/;s/^panels:/panels:\n  crown: longitudinal closure\n  joint: narrow cast/' "$base" >closure.yaml
for name in skew ends curve closure; do look $name $name.yaml US; done
look metric "$base" SI

# With a survey: every shim of `clench seat` stands in its row and column.
cat >shims.py <<'END'
import csv, ezdxf
want = {}
for r in csv.DictReader(open("seat.csv", encoding="utf-8")):
    want.setdefault(r["line"], []).append(float(r["shim left [in]"]))
space = ezdxf.readfile("seat/shims-1.dxf").modelspace()
words = [(t.dxf.insert.y, t.dxf.insert.x, t.dxf.text) for t in space.query("TEXT") if t.dxf.layer == "TEXT"]
def inches(text):
    parts = [p.split("/") for p in text.rstrip('"').split()]
    return sum(float(p[0]) / float(p[1]) if len(p) > 1 else float(p[0]) for p in parts)
count = 0
for name, heights in want.items():
    (y, x, _), = [w for w in words if w[2] == name]
    row = sorted((w[1], w[2]) for w in words if abs(w[0] - y) < 0.05 and w[1] > x)[1:1 + len(heights)]
    got = [inches(w[1]) for w in row]
    if len(got) != len(heights) or any(abs(a - b) > 1e-4 for a, b in zip(got, heights)):
        print(f"{name}: {got} are not {heights}")
    count += len(got)
print(f"{count} shims")
END
clench seat "$ROOT/examples/causeway.yaml" --survey "$ROOT/examples/causeway-survey.csv" -o seat.csv >seat.txt
clench draw "$ROOT/examples/causeway.yaml" --survey "$ROOT/examples/causeway-survey.csv" -o seat >draw.txt
/usr/bin/python3 shims.py
clench draw "$base" -o seat --thrust '900 kip'
echo "exit status $?"

# Half size, the same bytes, files that are not ours, what is refused.
clench draw "$base" -o one --date 2031-05-04 --half --north 40 >one.txt
pdfinfo one/drawings.pdf | grep 'Page size'
echo mine >one/notes.txt
SOURCE_DATE_EPOCH=1935619200 clench draw "$base" -o two/deep/er --half --north 40 >two.txt
cp one/notes.txt two/deep/er
diff -r one two/deep/er && echo 'the same files, of the same day'
clench draw "$base" -o one --date 2031-05-04 --half --north 40 >again.txt
diff -r one two/deep/er && cat one/notes.txt
cat again.txt
touch one/panel-z.dxf
clench draw "$base" -o one --date 2031-05-04 | tail -n 2
clench draw "$base"
echo "exit status $?"
clench draw "$base" -o look.py
echo "exit status $?"
clench draw "$base" -o look.py/below
echo "exit status $?"
clench draw "$base" -o three --north east
echo "exit status $?"
sed 's/^panels:/casting:\n  bed: 20 ft\npanels:/' "$base" >short.yaml
clench draw short.yaml -o three
echo "exit status $?"
[ -e three ] || echo 'nothing is written'
