# needs clench
# The four ways on every example: what is said first, how wide it is, and that the JSON's own numbers agree
# with each other; a given number of tendons; what cannot be built.
cat >look.py <<'END'
import json, sys
name = sys.argv[1]
a = json.load(open(name + ".json", encoding="utf-8"))
print(name + ":", ", ".join(w["way"] for w in a["ways"]))
for w in a["ways"]:
    c = w["compression"]
    for moment in ("begin", "composite", "opening", "end_of_life"):
        total = sum(c[moment]["mean_by_cause_Pa"].values())
        if abs(total - c[moment]["mean_Pa"]) > 20:
            print(f"{name}: {w['way']}: {moment} does not add up")
    if abs(w["margin_Pa"] - min(l["margin_Pa"] for l in w["lines"])) > 1e-6 * abs(w["margin_Pa"]):
        print(f"{name}: {w['way']}: margin")
    for l in w["lines"]:
        worst = l["worst"]
        demand = sum(worst[k] for k in ("permanent_Pa", "live_Pa", "gradient_Pa", "wheel_Pa"))
        if abs(worst["limit_Pa"] - demand - l["margin_Pa"]) > 1:
            print(f"{name}: {w['way']}: parts of the margin")
        if len(l["joints"]) != l["joint_count"] or not l["joints"][0]["history"]:
            print(f"{name}: {w['way']}: joints")
for q in a["quantities"]:
    product = 1
    for f in q["factors"]:
        product = product / f["value"] if f["divides"] else product * f["value"]
    if abs(product - q["amount"]) > 1e-9 * q["amount"]:
        print(f"{name}: {q['way']}: {q['what']}: {product} is not {q['amount']}")
for way, hours in a["crew_hours"].items():
    if abs(hours - 24 * sum(q["amount"] for q in a["quantities"] if q["work"] and q["way"] == way)) > 1e-9 * hours:
        print(f"{name}: {way}: hours")
t = a["ways"][1]["tendons"]
f = [p["seated_Pa"] for p in t["profile"]]
if not t["enough"] or any(p["seated_Pa"] > p["pulled_Pa"] for p in t["profile"]) or min(f) <= 0:
    print(f"{name}: tendons")
for text in open(name + ".txt", encoding="utf-8"):
    if len(text) > 101:
        print(f"{name}: {len(text)} columns: {text}")
END
for file in single-span single-tub two-span-metric; do
    clench compare "$ROOT/examples/$file.yaml" --json >$file.json
    echo "exit status $?"
    { clench compare "$ROOT/examples/$file.yaml"; clench compare "$ROOT/examples/$file.yaml" --units SI; } >$file.txt
    /usr/bin/python3 look.py $file
    grep -wn 'nan\|inf' $file.txt
done
sed -n 1,30p single-span.txt
sed -n '/^What each way/,/^Where the jacked/p;/^Where the jacked/q' single-span.txt
printf 'ways:\n  tendon: {count: 4}\n' | cat "$ROOT/examples/single-span.yaml" - >few.yaml
clench compare few.yaml | sed -n '3,9p'
printf 'ways:\n  cast: {pours: [{from: 0 ft, to: 60 ft}]}\n' | cat "$ROOT/examples/single-span.yaml" - >hole.yaml
clench compare hole.yaml
echo "exit status $?"
