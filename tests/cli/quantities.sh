# needs clench
# Quantities of every example: each value is the product of its factors, each run and total their sums, concrete and
# pockets those of the panels' schedule; the workbook's formulas, worked out by another program, give its own kept
# values; the same bytes for the same day; no cell of the table starts a formula.
cat >look.py <<'END'
import csv, json, math, re, sys
import openpyxl
name = sys.argv[1]
q = json.load(open("q.json", encoding="utf-8"))
panels = json.load(open("p.json", encoding="utf-8"))
def near(x, y, what, tolerance=1e-9):
    if abs(x - y) > tolerance * max(1, abs(y)):
        print(f"{name}: {what}: {x} is not {y}")
def value(map, key="value"):
    return next((v for k, v in map.items() if k.startswith(key + "_") and v is not None), None)
kept, lines = {}, 0
for one in q["quantities"]:
    total = value(one)
    if total is None:
        continue
    kept[one["no"]] = one
    near(sum(value(line) for line in one["lines"]), total, one["name"] + ": sum")
    for line in one["lines"]:
        lines += 1
        product = math.prod(value(f) for f in line["factors"])
        near(product, value(line), f"{one['name']} of {line['of']}")
    near(sum(one["runs"].values()), total, one["name"] + ": runs")
    if one["waste"] is not None:
        share = next(i["value_1"] for i in q["inputs"] if i["key"] == one["waste"]) if isinstance(one["waste"], str) else one["waste"]
        near(value(one, "to_order"), total * (1 + share), one["name"] + ": to order")
by = {o["name"]: o for o in kept.values()}
net = by["concrete of panels"]["value_m3"] + by["concrete of anchor panels"]["value_m3"]
near(net, panels["concrete_m3"], "concrete of all panels", 1e-6)
near(by["pockets"]["value_1"], panels["pockets"], "pockets")

# the workbook: sums and products alone
formulas = openpyxl.load_workbook("q.xlsx")
values = openpyxl.load_workbook("q.xlsx", data_only=True)
known = {}
def cell(sheet, at):
    at = at.replace("$", "")
    if (sheet, at) not in known:
        known[sheet, at] = work(sheet, formulas[sheet][at].value)
    return known[sheet, at]
def work(sheet, text):
    if not (isinstance(text, str) and text.startswith("=")):
        return 0 if text is None else text
    def total(match):
        where, first, last = match.group(1), match.group(2), match.group(3)
        where = where.strip("'!") if where else sheet
        return repr(sum(cell(where, c.coordinate) for row in formulas[where][f"{first}:{last}"] for c in row))
    text = re.sub(r"SUM\(('?[A-Za-z ]+'?!)?(\$?[A-Z]+\$?\d+):(\$?[A-Z]+\$?\d+)\)", total, text[1:])
    text = re.sub(r"('?[A-Za-z ]+'?!)?(\$?[A-Z]+\$?\d+)", lambda m: repr(cell(m.group(1).strip("'!") if m.group(1) else sheet, m.group(2))), text)
    assert re.fullmatch(r"[-+*/() .0-9e]+", text), text
    return eval(text)
count = 0
for sheet in formulas:
    for row in sheet:
        for c in row:
            if isinstance(c.value, str) and c.value.startswith("="):
                count += 1
                near(values[sheet.title][c.coordinate].value, cell(sheet.title, c.coordinate), f"{sheet.title} {c.coordinate}")
print(f"{name}: {len(kept)} quantities of {lines} lines; {count} formulas of {len(formulas.sheetnames)} sheets")
if count < lines + len(kept):
    print(f"{name}: too few formulas")
for row in csv.reader(open("q.csv", encoding="utf-8", newline="")):
    for text in row:
        if text and (text[0] in "=+@\t" or text[0] == "-" and not re.fullmatch(r"-[\d.]+(e-?\d+)?|-", text)):
            print(f"{name}: a cell that starts a formula: {text}")
END
for example in causeway single-span single-tub steel-continuous two-span-metric made-continuous; do
    cp "$ROOT/examples/$example.yaml" bridge.yaml
    clench quantities bridge.yaml --json >q.json
    clench panels bridge.yaml --json >p.json
    clench quantities bridge.yaml --date 2031-05-04 -o q.xlsx >/dev/null
    clench quantities bridge.yaml --date 2031-05-04 -o again.xlsx >/dev/null
    cmp q.xlsx again.xlsx
    clench quantities bridge.yaml -o q.csv >/dev/null
    /usr/bin/python3 look.py "$example"
done
sed 's/^title:.*/title: "=1+1"/' "$ROOT/examples/single-span.yaml" >bridge.yaml
grep -q '=1+1' bridge.yaml || sed -i '1i title: "=1+1"' bridge.yaml
clench quantities bridge.yaml -o q.csv >/dev/null
grep -c ',=1+1\|"=1+1' q.csv
clench quantities bridge.yaml -o q.txt
echo "exit $?"
