# needs clench
# The open model of every example, and of one with skew: each entity once, every reference there, as many attributes as
# IFC 4.3 has (from memory), GlobalIds of their letters and once, every product in one place, panels' volumes from their outlines and
# holes equal to the schedule's; the same bytes for the same day.
cat >look.py <<'END'
import json, re, sys
name = sys.argv[1]
text = open("m.ifc", encoding="utf-8").read()
panels = json.load(open("p.json", encoding="utf-8"))
if not text.startswith("ISO-10303-21;") or "FILE_SCHEMA(('IFC4X3_ADD2'))" not in text or not text.rstrip().endswith("END-ISO-10303-21;"):
    print(f"{name}: no model of IFC4X3_ADD2")
def split(args):
    out, depth, quoted, start = [], 0, False, 0
    for i, c in enumerate(args):
        if c == "'":
            quoted = not quoted
        elif not quoted and c in "()":
            depth += 1 if c == "(" else -1
        elif not quoted and depth == 0 and c == ",":
            out.append(args[start:i])
            start = i + 1
    return out + [args[start:]]
entity = {}
for number, kind, args in re.findall(r"^#(\d+)=([A-Z0-9]+)\((.*)\);$", text, re.M):
    if number in entity:
        print(f"{name}: #{number} twice")
    entity[number] = kind, split(args)
lines = [line for line in text[text.index("DATA;"):].splitlines() if line.startswith("#")]
if len(lines) != len(entity):
    print(f"{name}: {len(lines) - len(entity)} lines that are no entity")
def links(args):
    return re.findall(r"#(\d+)", re.sub(r"'[^']*'", "", ",".join(args)))
for number, (kind, args) in entity.items():
    for to in links(args):
        if to not in entity:
            print(f"{name}: #{number} names #{to}, which is not there")
# attributes in all, those of the supertypes in: IFC 4.3 ADD2, from memory
attributes = {"IFCCARTESIANPOINT": 1, "IFCDIRECTION": 1, "IFCAXIS2PLACEMENT3D": 3, "IFCAXIS2PLACEMENT2D": 2, "IFCLOCALPLACEMENT": 2,
    "IFCPOLYLINE": 1, "IFCARBITRARYCLOSEDPROFILEDEF": 3, "IFCARBITRARYPROFILEDEFWITHVOIDS": 4, "IFCEXTRUDEDAREASOLID": 4,
    "IFCSHAPEREPRESENTATION": 4, "IFCPRODUCTDEFINITIONSHAPE": 3, "IFCSLAB": 9, "IFCPLATE": 9, "IFCBEAM": 9, "IFCMEMBER": 9,
    "IFCPROPERTYSET": 5, "IFCPROPERTYSINGLEVALUE": 4, "IFCRELDEFINESBYPROPERTIES": 6, "IFCRELAGGREGATES": 6,
    "IFCRELCONTAINEDINSPATIALSTRUCTURE": 6, "IFCRELASSOCIATESMATERIAL": 6, "IFCRELVOIDSELEMENT": 6, "IFCOPENINGELEMENT": 9,
    "IFCMATERIAL": 3, "IFCSIUNIT": 4, "IFCUNITASSIGNMENT": 1, "IFCBRIDGE": 10, "IFCBRIDGEPART": 11, "IFCSITE": 14, "IFCPROJECT": 9,
    "IFCELEMENTASSEMBLY": 10, "IFCRECTANGLEPROFILEDEF": 5, "IFCKERB": 9, "IFCRAILING": 9, "IFCWALL": 9, "IFCBUILDINGELEMENTPROXY": 9,
    "IFCCARTESIANPOINTLIST2D": 2, "IFCINDEXEDPOLYCURVE": 3, "IFCCONVERSIONBASEDUNIT": 4, "IFCDIMENSIONALEXPONENTS": 7,
    "IFCMEASUREWITHUNIT": 2, "IFCELEMENTQUANTITY": 6, "IFCQUANTITYAREA": 5, "IFCQUANTITYVOLUME": 5, "IFCFASTENER": 9,
    "IFCGEOMETRICREPRESENTATIONCONTEXT": 6, "IFCGEOMETRICREPRESENTATIONSUBCONTEXT": 10,
    "IFCRELCONNECTSWITHREALIZINGELEMENTS": 9}
unknown = sorted({k for k, _ in entity.values()} - attributes.keys())
for number, (kind, args) in entity.items():
    if kind in attributes and len(args) != attributes[kind]:
        print(f"{name}: #{number} {kind} has {len(args)} attributes, not {attributes[kind]}")
ids = [args[0].strip("'") for kind, args in entity.values() if re.fullmatch(r"'[0-9A-Za-z_$]{22}'", args[0]) and kind.startswith("IFC") and not kind.startswith(("IFCPROPERTYSINGLE", "IFCQUANTITY"))]
if len(set(ids)) != len(ids) or any(i[0] not in "0123" for i in ids):
    print(f"{name}: GlobalIds")
placed = {}
for kind, args in entity.values():
    if kind in ("IFCRELCONTAINEDINSPATIALSTRUCTURE", "IFCRELAGGREGATES"):
        for of in links(args[4:5] if kind[6] == "C" else args[5:6]):
            placed[of] = placed.get(of, 0) + 1
for number, (kind, args) in entity.items():
    if kind in ("IFCSLAB", "IFCBEAM", "IFCPLATE", "IFCELEMENTASSEMBLY", "IFCBRIDGE", "IFCBRIDGEPART", "IFCSITE") and placed.get(number) != 1:
        print(f"{name}: #{number} {kind} stands in {placed.get(number, 0)} places")
def points(number):
    return [[float(v) for v in p.split(",")] for p in re.findall(r"\(([-+.\dE]+,[-+.\dE]+)\)", entity[links(entity[number][1][0:1])[0]][1][0])]
def area(number):
    p = points(number)
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(p, p[1:]))) / 2
def volume(number):
    kind, args = entity[number]
    if kind == "IFCEXTRUDEDAREASOLID":
        profile, depth = entity[links(args[0:1])[0]], float(args[3])
        flat = area(links(profile[1][2:3])[0])
        if profile[0].endswith("WITHVOIDS"):
            flat -= sum(area(v) for v in links(profile[1][3:4]))
        return flat * depth
    return sum(volume(n) for n in links(args) if entity[n][0] in ("IFCSHAPEREPRESENTATION", "IFCEXTRUDEDAREASOLID"))
foot = [a for k, a in entity.values() if k == "IFCCONVERSIONBASEDUNIT" and a[2] == "'FOOT'"]
to_m3 = 0.3048**3 if foot else 1
kinds = {k["kind"]: k for k in panels["kinds"]}
worst, found = 0, 0
for mark in panels["panels"]:
    hits = [a for k, a in entity.values() if k == "IFCSLAB" and a[2].strip("'") == mark["mark"]]
    if len(hits) != 1:
        print(f"{name}: {mark['mark']} stands {len(hits)} times")
        continue
    found += 1
    kind = kinds[mark["kind"]]
    if kind["rise_1"] == 0:
        worst = max(worst, abs(volume(links(hits[0][6:7])[0]) * to_m3 / kind["concrete_m3"] - 1))
print(f"{name}: {found} panels, volumes within 1e-9: {worst < 1e-9}; kinds not in the table: {' '.join(unknown) or 'none'}")
END
for example in causeway single-span single-tub steel-continuous two-span-metric made-continuous skew; do
    if [ "$example" = skew ]; then
        sed 's/^deck:/deck:\n  skew_degrees: 20/' "$ROOT/examples/causeway.yaml" >bridge.yaml
    else
        cp "$ROOT/examples/$example.yaml" bridge.yaml
    fi
    clench panels bridge.yaml --json >p.json
    clench model bridge.yaml --date 2031-05-04 -o m.ifc >/dev/null
    clench model bridge.yaml --date 2031-05-04 -o again.ifc >/dev/null
    cmp m.ifc again.ifc
    /usr/bin/python3 look.py "$example"
done
clench model bridge.yaml
echo "exit $?"
