# needs clench
# Every line of every working once more, from its formula text and the values above it, with an evaluator
# that shares nothing with the program's; what rows cite is what the cited working gives.
cat >look.py <<'END'
import json, math, re, sys

TOKEN = re.compile(r"\s*(?:(?P<number>\d+\.?\d*(?:e-?\d+)?)(?:\s*\[[^\]]*\])?"
                   r"|(?P<name>[A-Za-z][A-Za-z0-9']*(?:_[A-Za-z0-9']+)?)(?P<call>\()?|(?P<sign><=|>=|[-+*/^(),<>]))")
CALLS = {"sqrt": math.sqrt, "abs": abs, "exp": math.exp, "ln": math.log, "log10": math.log10, "sin": math.sin,
         "cos": math.cos, "tan": math.tan, "min": min, "max": max}


class Formula:
    def __init__(self, text, value):
        self.token, self.at, self.value = list(TOKEN.finditer(text)), 0, value
        if "".join(t.group(0) for t in self.token).strip() != text.strip():
            raise ValueError("cannot be read")

    def sign(self, *wanted):
        if self.at < len(self.token) and self.token[self.at]["sign"] in wanted:
            self.at += 1
            return self.token[self.at - 1]["sign"]
        return None

    def compare(self):
        left = self.sum()
        sign = self.sign("<", "<=", ">", ">=")
        if not sign:
            return left
        right = self.sum()
        return {"<": left < right, "<=": left <= right, ">": left > right, ">=": left >= right}[sign]

    def sum(self):
        value = self.product()
        while sign := self.sign("+", "-"):
            value = value + self.product() if sign == "+" else value - self.product()
        return value

    def product(self):
        value = self.signed()
        while self.at < len(self.token):
            if sign := self.sign("*", "/"):
                value = value * self.signed() if sign == "*" else value / self.signed()
            elif self.token[self.at]["sign"] in (None, "("):
                value *= self.power()
            else:
                break
        return value

    def signed(self):
        return -self.signed() if self.sign("-") else self.power()

    def power(self):
        value = self.atom()
        return value ** self.signed() if self.sign("^") else value

    def atom(self):
        if self.sign("("):
            value = self.sum()
            self.sign(")")
            return value
        token = self.token[self.at]
        self.at += 1
        if token["number"]:
            return float(token["number"])
        if not token["call"]:
            return self.value.get(token["name"], math.pi)
        part = [self.compare()]
        while self.sign(","):
            try:
                part.append(self.compare())
            except (ZeroDivisionError, ValueError):  # a branch that is not taken
                part.append(math.nan)
        self.sign(")")
        return (part[1] if part[0] else part[2]) if token["name"] == "if" else CALLS[token["name"]](*part)


name = sys.argv[1]
answer = json.load(open(name + ".json", encoding="utf-8"))
count = 0
for one in answer["checks"] + answer["cited"]:
    value = {}
    for line in one["working"]:
        if "symbol" not in line:
            continue
        if line["formula"] is None:
            value[line["symbol"]] = line["value"]
            if not line["source"] and line["value"] != 0:  # what is nothing says why in its words
                print(f"{name}: {one['title']}: {line['symbol']} has no origin")
            continue
        formula = Formula(line["formula"], value)
        found = formula.compare()
        if formula.at != len(formula.token) or abs(found - line["value"]) > 1e-9 * max(abs(found), 1):
            print(f"{name}: {one['title']}: {line['symbol']} = {line['formula']} = {found}, not {line['value']}")
        value[line["symbol"]] = line["value"]
        count += 1
SI = {"kip": 4448.2216152605, "kip*in": 112.98482902762, "ksi": 6894757.2931684, "in": 0.0254, "in^2": 0.00064516,
      "MN": 1e6, "MN*m": 1e6, "MPa": 1e6, "m": 1, "m^2": 1, "": 1, "in^2*delta_degF": 0.00064516 / 1.8,
      "in^3*delta_degF": 0.000016387064 / 1.8, "m^2*delta_degC": 1, "m^3*delta_degC": 1}


def same(what, found, wanted):
    if abs(found - wanted) > 1e-9 * max(abs(found), abs(wanted)) + 1e-9:
        print(f"{name}: {what}: {found}, not {wanted}")


# Sums of the tables beside a working: axles times ordinates, layers of a gradient.
for one in answer["cited"]:
    line = {l["symbol"]: l["value"] * SI[l["unit"]] for l in one["working"] if l.get("unit") in SI and "symbol" in l}
    for symbol, key in (("V_i", "i"), ("V_N", "N_1"), ("V_M", "M_m"), ("V_S", "section_m")):
        if symbol in line:
            same(f"{one['mark']} {symbol}", sum(a["load_N"] * a[key] for a in one["axles"]), line[symbol])
    if "S_0" in line:
        part = [0, 0]
        for l in one["layers"]:
            b1, b2, t1, t2 = l["top_width_m"], l["bottom_width_m"], l["top_K"], l["bottom_K"]
            first = l["height_m"] * (2 * b1 * t1 + b1 * t2 + b2 * t1 + 2 * b2 * t2) / 6
            part[0] += first
            part[1] += l["y_m"] * first + l["height_m"] ** 2 * (b1 * t1 + b1 * t2 + b2 * t1 + 3 * b2 * t2) / 12
        same(f"{one['mark']} S_0", part[0], line["S_0"])
        same(f"{one['mark']} S_1", part[1], line["S_1"])
cited = {one["mark"]: one for one in answer["cited"]}
used = set()
for one in answer["checks"]:
    for line in one["working"]:
        found = re.fullmatch(r"working ([LG]\d+)", line["source"] or "")
        if not found:
            continue
        used.add(found[1])
        there = [l for l in cited[found[1]]["working"] if l.get("symbol") in ("f", "e")][0]
        same(f"{one['title']}: {found[1]}", abs(line["value"]) * SI[line["unit"]], abs(there["value"]) * SI[there["unit"]])
print(f"{name}: recomputed" if count > 300 else f"{name}: {count} lines alone")
if used != set(cited):
    print(f"{name}: nobody cites {set(cited) - used}")
END
for file in "$ROOT"/examples/*.yaml; do
    name=$(basename "$file" .yaml)
    clench checks "$file" --json >"$name.json"
    /usr/bin/python3 look.py "$name"
done
