# needs clench
# How sure: the answer as text; the same lives on one thread and on two; seeds and ways of drawing; the group
# odds of the file; what options may say.
cp "$ROOT/examples/causeway.yaml" bridge.yaml
clench odds bridge.yaml --lives 60
echo "exit $?"
clench odds bridge.yaml --lives 40 --threads 1 --json >one.json
clench odds bridge.yaml --lives 40 --threads 2 --json >two.json
cmp one.json two.json && echo "threads: the same"
clench odds bridge.yaml --lives 40 --seed 2 --json >seed.json
cmp -s one.json seed.json || echo "another seed: other lives"
clench odds bridge.yaml --lives 40 --draw sobol --json >sobol.json
cmp -s one.json sobol.json || echo "another way to draw: other lives"
/usr/bin/python3 - <<'END'
import json
a = json.load(open("one.json", encoding="utf-8"))
years = [y["closed"]["share_1"] for y in a["years"]]
needs = [t["need_whole_N"] for t in a["thrusts"]]
print("chances fall with the years:", years == sorted(years, reverse=True))
print("thrusts rise with the chance:", needs == sorted(needs))
print("inside their intervals:", all(y["closed"]["low_1"] <= y["closed"]["share_1"] <= y["closed"]["high_1"] for y in a["years"]))
END
clench odds bridge.yaml --lives 40 --thrust "1800 kip" | sed -n 3,4p
printf '%s\n' "odds: {wanted: 50 %, live: 1, shrinkage_deck_spread: 0}" >>bridge.yaml
clench odds bridge.yaml --lives 40 --thrust "1800 kip" >/dev/null
echo "wanted 50 %: exit $?"
for wrong in "--lives 10" "--lives 1e3" "--seed -1" "--draw dice" "--threads 0" "--live 3"; do
    # shellcheck disable=SC2086  # two words
    clench odds bridge.yaml $wrong
    echo "exit $?"
done
