# needs clench
# Every example: the exit status is the verdict, rows stand worst first, ratios are demand over
# capacity, each row has its working, what is unproven says why, no line over 100 columns.
cat >look.py <<'END'
import json, sys
name, status = sys.argv[1], int(sys.argv[2])
answer = json.load(open(name + ".json", encoding="utf-8"))
checks, rank = answer["checks"], {"fail": 0, "unproven": 1, "pass": 2, "told": 3}
if status != {"fail": 1, "unproven": 5, "pass": 0}[answer["verdict"]]:
    print(f"{name}: verdict {answer['verdict']}, exit status {status}")
states = [check["state"] for check in checks]
if any(answer["count"][state] != states.count(state) for state in rank):
    print(f"{name}: the states are miscounted")
if sorted(states, key=rank.get) != states:
    print(f"{name}: the states are out of order")
for check in checks:
    what = f"{name}: {check['name']}, {check['line']}"
    demand, capacity, ratio = check["demand"], check["capacity"], check["ratio_1"]
    if ratio and capacity and abs(ratio - max(demand, 0) / capacity) > 1e-12 * ratio:
        print(f"{what}: ratio {ratio} of {demand} over {capacity}")
    if check["state"] == "pass" and (ratio is None or ratio > 1.001):
        print(f"{what}: passes at {ratio}")
    if (check["state"] == "unproven") != (check["why"] is not None):
        print(f"{what}: {check['state']}, why {check['why']}")
    if not check["working"] or (check["state"] != "told" and not check["clause"]):
        print(f"{what}: no working or no clause")
for text in open(name + ".txt", encoding="utf-8"):
    if len(text) > 101:
        print(f"{name}: {len(text)} columns: {text}")
END
for file in "$ROOT"/examples/*.yaml; do
    name=$(basename "$file" .yaml)
    clench checks "$file" --json >"$name.json"
    status=$?
    { clench checks "$file"; clench checks "$file" --all; clench checks "$file" --units SI; } >"$name.txt"
    /usr/bin/python3 look.py "$name" "$status"
    grep -wn 'nan\|inf' "$name.txt"
    echo "$name: exit status $status"
done
clench checks "$ROOT/examples/causeway.yaml" --thrust '100 kip' >small.txt
echo "exit status $?"
grep -q '^FAILS .*joints: average' small.txt && echo 'a small thrust fails the joints'
clench checks "$ROOT/examples/causeway.yaml" --html x
echo "exit status $?"
