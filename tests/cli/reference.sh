# needs clench
# docs/bridge-file.md is what the program says now, and its examples together are one bridge.
clench schema --markdown >reference.md
cmp -s reference.md "$ROOT/docs/bridge-file.md" && echo 'up to date' ||
    echo 'out of date: run clench schema --markdown >docs/bridge-file.md'
sed -n '/^```yaml/,/^```/p' reference.md | grep -v '^```' >all.yaml
clench thrust all.yaml >answer
[ $? -le 1 ] && head -n 1 answer
# one heading for every section of the schema
clench schema | /usr/bin/python3 -c '
import json, sys
known = set(open("reference.md", encoding="utf-8").read().split("\n"))
for name, key in json.load(sys.stdin)["properties"].items():
    if key.get("type") in ("object", "array") and f"## {name}" not in known:
        print("no section:", name)'
