# needs clench
# Every example gives a page of good form, good JSON and no line over 100 columns; the exit status
# says whether there is a window; what is left and what was lost add up.
cat >look.py <<'END'
import json, sys
name, status = sys.argv[1], int(sys.argv[2])
answer = json.load(open(name + ".json", encoding="utf-8"))
if status != (0 if answer["window"] else 1):
    print(f"{name}: window {answer['window']}, exit status {status}")
for line in answer["lines"]:
    for moment in ("jacked", "opening", "end"):
        split = line["compression"][moment]
        for part in ("mean_Pa", "top_Pa"):
            off = split[part] - sum(cause[part] for cause in split["causes"])
            if abs(off) > 1:
                print(f"{name}: {line['name']}, {moment}: the causes miss {part} by {off}")
history = json.load(open(name + ".life.json", encoding="utf-8"))
if len(history["joints"][0]["history"]) < 20:
    print(f"{name}: a short life")
for text in open(name + ".txt", encoding="utf-8"):
    if len(text) > 101:
        print(f"{name}: {len(text)} columns: {text}")
END
for file in "$ROOT"/examples/*.yaml; do
    name=$(basename "$file" .yaml)
    clench thrust "$file" --html "$name.html" >"$name.txt"
    status=$?
    clench thrust "$file" --json >"$name.json"
    clench life "$file" >>"$name.txt" || echo "$name: life failed"
    clench life "$file" --json >"$name.life.json"
    /usr/bin/python3 look.py "$name" "$status"
    # the page as XML: the doctype left out, void elements closed
    sed -e '1d' -e 's/<meta \([^>]*\)>/<meta \1\/>/' "$name.html" | xmllint --noout - &&
        echo "$name: well formed"
done
clench schema | grep -o 'https://json-schema.org/draft/[0-9-]*/schema'
