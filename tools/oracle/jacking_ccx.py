#!/usr/bin/python3
"""Oracle for an elastic jacking stage: the same girder line as a plane-stress continuum in the
general-purpose solver ccx and as beams in jacking_beams.py; writes tests/data/jacking_oracle.*.

    /usr/bin/python3 tools/oracle/jacking_ccx.py [--keep DIR]        needs ccx, clang-format, scipy

Both chains are strips of CPS8R elements, one above the other. A rectangle with the girder's A and I
(height sqrt(12 I/A), thickness A/height) stands for the steel section; it reaches beyond the
girder's top, so both strips have a row of nodes at the slip plane (the deck soffit), and the links
are plain equations between those nodes: vertical everywhere, longitudinal as well over the anchors.
Where forces enter (at stations) further equations keep the section plane and its height. No
Poisson's ratio; the modulus across is RIGID times the one along, and so is the shear modulus where
Bernoulli beams are wanted: then sections stay normal to the axis.
"""
import argparse
import pathlib
import subprocess
import tempfile

import jacking_beams
from jacking_model import (MODEL, Result, chain, rounded, station_table, stations_ft, write_header,
                           write_json)

RIGID = 1e3
IN_PER_FT = 12.0
FIELDS = ["reaction_kip", "deck_N_kip", "deck_M_kipin", "girder_N_kip", "girder_M_kipin", "rise_in"]
STATIONS_FT = [30.0, 60.0, 90.0, 120.0, 150.0, 170.0, 220.0, 270.0, 300.0, 330.0, 360.0]
GIRDER_GA_KIP = 29000.0 / 2.6 * 60 * 0.5625  # web of 60 x 0.5625 in
DECK_GA_KIP = 4800.0 / 2.4 * 114 * 9 * 5 / 6


class Strip:
    """A rectangle of CPS8R elements over columns x (in) and rows y (in, from its centroid)."""

    def __init__(self, first_id, x_in, y_in, area, inertia):
        self.x, self.y, self.area, self.inertia = x_in, y_in, area, inertia
        self.height = (12 * inertia / area) ** 0.5
        self.thickness = area / self.height
        self.first = first_id
        self.rows = 2 * (len(y_in) - 1) + 1
        self.columns = 2 * (len(x_in) - 1) + 1

    def node(self, column, row):
        """Of the half-step grid; only nodes with an even column or row exist."""
        return self.first + column * self.rows + row

    def at(self, x, y):
        column = min(range(len(self.x)), key=lambda c: abs(self.x[c] - x))
        assert abs(self.x[column] - x) < 1e-6
        values = self.grid_y()
        row = min(range(self.rows), key=lambda r: abs(values[r] - y))
        assert abs(values[row] - y) < 1e-6
        return self.node(2 * column, row)

    def grid_y(self):
        return half_steps(self.y)

    def nodes(self, y_base):
        xs, ys = half_steps(self.x), self.grid_y()
        for c in range(self.columns):
            for r in range(self.rows):
                if c % 2 == 0 or r % 2 == 0:
                    yield self.node(c, r), xs[c], y_base + ys[r]

    def elements(self):
        """(column, layer, eight nodes) in the order of ccx."""
        for c in range(0, self.columns - 1, 2):
            for r in range(0, self.rows - 1, 2):
                corner = [(0, 0), (2, 0), (2, 2), (0, 2), (1, 0), (2, 1), (1, 2), (0, 1)]
                yield c // 2, r // 2, [self.node(c + i, r + j) for i, j in corner]


def half_steps(values):
    out = [values[0]]
    for a, b in zip(values, values[1:]):
        out += [(a + b) / 2, b]
    return out


class Input:
    """Text of a ccx input, element numbers and what to read back."""

    def __init__(self):
        self.node_lines, self.sections, self.equations = [], [], []
        self.boundary, self.loads = [], []
        self.element_of = {}
        self.next_element = 1

    def add(self, name, strip, y_base, modulus, shear):
        self.node_lines += [f"{n},{x:.9f},{y:.9f},0" for n, x, y in strip.nodes(y_base)]
        lines = [f"*ELEMENT,TYPE=CPS8R,ELSET={name}"]
        for column, layer, nodes in strip.elements():
            self.element_of[self.next_element] = (name, column, layer)
            lines.append(f"{self.next_element}," + ",".join(map(str, nodes)))
            self.next_element += 1
        across = RIGID * modulus
        lines += [f"*MATERIAL,NAME={name}", "*ELASTIC,TYPE=ENGINEERING CONSTANTS",
                  f"{modulus:.9g},{across:.9g},{across:.9g},0,0,0,{shear:.9g},{shear:.9g}",
                  f"{shear:.9g}", f"*SOLID SECTION,ELSET={name},MATERIAL={name}",
                  f"{strip.thickness:.12g}"]
        self.sections += lines

    def equal(self, direction, one, other):
        self.equations += ["*EQUATION", "2", f"{one},{direction},1.,{other},{direction},-1."]

    def plane(self, strip, column, free_row=None):
        """Rows between bottom and top move with the straight line through both; one height, but for
        the row of a bearing, whose reaction ccx then prints whole."""
        y, bottom, top = strip.grid_y(), strip.node(column, 0), strip.node(column, strip.rows - 1)
        for row in range(1, strip.rows):
            node = strip.node(column, row)
            if row != free_row:
                self.equal(2, node, bottom)
            if node != top:
                share = (y[row] - y[0]) / (y[-1] - y[0])
                self.equations += ["*EQUATION", "3", f"{node},1,1.,{bottom},1,{share - 1:.15g},"
                                   f"{top},1,{-share:.15g}"]

    def text(self, watched):
        names = sorted({name for name, _, _ in self.element_of.values()})
        lines = ["*NODE,NSET=ALL"] + self.node_lines + self.sections + self.equations
        lines += ["*NSET,NSET=WATCH"] + [f"{n}," for n in watched]
        lines += ["*BOUNDARY"] + [f"{n},{d},{d}" for n, d in self.boundary]
        lines += ["*STEP", "*STATIC", "*CLOAD"] + [f"{n},{d},{f:.12g}" for n, d, f in self.loads]
        lines += ["*NODE PRINT,NSET=WATCH", "U", "*NODE PRINT,NSET=WATCH", "RF"]
        for name in names:
            lines += [f"*EL PRINT,ELSET={name}", "S"]
        return "\n".join(lines + ["*END STEP", ""])


def run(text, folder):
    """Displacements, forces by node and sigma_x at the eight points by element."""
    folder = pathlib.Path(folder)
    (folder / "job.inp").write_text(text)
    done = subprocess.run(["ccx", "-i", "job"], cwd=folder, capture_output=True, text=True,
                          check=True)
    if "*ERROR" in done.stdout:
        raise RuntimeError(done.stdout[-2000:])
    move, force, stress, target = {}, {}, {}, None
    for line in (folder / "job.dat").read_text().splitlines():
        words = line.split()
        if line.startswith(" displacements"):
            target = move
        elif line.startswith(" forces"):
            target = force
        elif line.startswith(" stresses"):
            target = stress
        elif words and target is stress:
            stress.setdefault(int(words[0]), []).append(float(words[2]))
        elif words and target is not None:
            target[int(words[0])] = [float(w) for w in words[1:4]]
    return move, force, stress


def section_forces(strip, name, model, stress):
    """N and M (about the centroid, tension at the bottom positive) at the middle of each column of
    elements, from the 2x2 points of each layer (exact for stresses linear in y)."""
    N, M = [0.0] * (len(strip.x) - 1), [0.0] * (len(strip.x) - 1)
    for number, points in stress.items():
        owner, column, layer = model.element_of[number]
        if owner != name:
            continue
        low, high = strip.y[layer], strip.y[layer + 1]
        half = (high - low) / 2
        for row in (0, 1):  # points run along x first, then y, then through the thickness
            values = points[2 * row : 2 * row + 2] + points[4 + 2 * row : 6 + 2 * row]
            share = sum(values) / 4 * half * strip.thickness
            y = (low + high) / 2 + half * (row - 0.5) * 2 / 3**0.5
            N[column] += share
            M[column] -= share * y
    return N, M


def columns_in(stations, between):
    """Element columns: every interval between stations in `between` equal parts."""
    out = [stations[0] * IN_PER_FT]
    for a, b in zip(stations, stations[1:]):
        out += [IN_PER_FT * (a + (b - a) * (k + 1) / between) for k in range(between)]
    return out


def build(link_ft, between, shear, plane_everywhere):
    m = MODEL
    stations = stations_ft(link_ft)
    soffit = m["girder_centroid_below_top_in"] + m["haunch_in"]  # above the girder's centroid
    half = (12 * m["girder_I_in4"] / m["girder_A_in2"]) ** 0.5 / 2
    girder = Strip(1, columns_in(stations, between), [-half, 0.0, soffit, half],
                   m["girder_A_in2"], m["girder_I_in4"])
    area = m["deck_b_in"] * m["deck_t_in"]
    inertia = area * m["deck_t_in"] ** 2 / 12
    decks, first = [], 1000001
    for part in ([x for x in stations if x <= m["gap_ft"][0]],
                 [x for x in stations if x >= m["gap_ft"][1]]):
        rows = [-m["deck_t_in"] / 2, m["deck_t_in"] / 2]
        decks.append(Strip(first, columns_in(part, between), rows, area, inertia))
        first += 1000000
    model = Input()
    axis = -m["girder_centroid_below_top_in"]
    model.add("GIRDER", girder, axis, m["girder_E_ksi"], shear["girder"])
    for name, deck in zip(("LEFT", "RIGHT"), decks):
        model.add(name, deck, m["haunch_in"] + m["deck_t_in"] / 2, m["deck_E_ksi"], shear["deck"])
        for x in stations:
            if deck.x[0] - 1e-6 <= x * IN_PER_FT <= deck.x[-1] + 1e-6:
                one = deck.at(x * IN_PER_FT, -m["deck_t_in"] / 2)
                other = girder.at(x * IN_PER_FT, soffit)
                model.equal(2, one, other)
                if any(a <= x <= b for a, b in m["anchors_ft"]):
                    model.equal(1, one, other)
    for strip in [girder] + decks:
        for k in range(0, len(strip.x), 1 if plane_everywhere else between):
            x = strip.x[k] / IN_PER_FT
            bearing = strip is girder and min(abs(x - s) for s in m["supports_ft"]) < 1e-6
            model.plane(strip, 2 * k, 2 if bearing else None)  # row 2: the centroid
    for k, x in enumerate(m["supports_ft"]):
        bearing = girder.at(x * IN_PER_FT, 0.0)
        model.boundary.append((bearing, 2))
        if k == m["fixed_support"]:
            model.boundary.append((girder.at(x * IN_PER_FT, -half), 1))
    faces = [decks[0].at(decks[0].x[-1], 0.0), decks[1].at(decks[1].x[0], 0.0)]
    model.loads += [(faces[0], 1, -m["thrust_kip"]), (faces[1], 1, m["thrust_kip"])]
    return model, girder, decks, stations, faces


def solve(folder, link_ft, between, shear=None):
    """`shear`: moduli (ksi), G times shear area over the strip's whole area; None: rigid."""
    rigid = {"girder": RIGID * MODEL["girder_E_ksi"], "deck": RIGID * MODEL["deck_E_ksi"]}
    model, girder, decks, stations, faces = build(link_ft, between, shear or rigid, bool(shear))
    bearings = [girder.at(x * IN_PER_FT, 0.0) for x in MODEL["supports_ft"]]
    level = [girder.at(x * IN_PER_FT, girder.y[0]) for x in stations]
    move, force, stress = run(model.text(faces + level + bearings), folder)
    gN, gM = section_forces(girder, "GIRDER", model, stress)
    dN, dM = [], []
    for name, deck in zip(("LEFT", "RIGHT"), decks):
        n, mo = section_forces(deck, name, model, stress)
        dN, dM = dN + n, dM + mo
        if name == "LEFT":
            empty = [0.0] * (len(girder.x) - 1 - sum(len(d.x) - 1 for d in decks))
            dN, dM = dN + empty, dM + empty
    return Result(
        stations_ft=stations,
        reaction_kip=[force[b][1] for b in bearings],
        gap_opening_in=move[faces[1]][0] - move[faces[0]][0],
        rise_in=[move[n][1] for n in level],
        deck_N_kip=means(dN, between), deck_M_kipin=means(dM, between),
        girder_N_kip=means(gN, between), girder_M_kipin=means(gM, between))


def means(values, between):
    return [sum(values[k : k + between]) / between for k in range(0, len(values), between)]


def check_cantilever(folder):
    """Closed forms: axial force F at an offset e, end force P; Bernoulli beam of 400 in."""
    length, area, inertia, E, F, P, e = 400.0, 76.75, 49019.0, 29000.0, 1000.0, 10.0, 37.46
    half = (12 * inertia / area) ** 0.5 / 2
    strip = Strip(1, [length * k / 40 for k in range(41)], [-half, 0.0, e, half], area, inertia)
    model = Input()
    model.add("BAR", strip, 0.0, E, RIGID * E)
    model.plane(strip, strip.columns - 1)
    for row in range(strip.rows):
        model.boundary += [(strip.node(0, row), 1), (strip.node(0, row), 2)]
    model.loads += [(strip.at(length, e), 1, F), (strip.at(length, 0.0), 2, P)]
    tip = strip.at(length, 0.0)
    move, _, stress = run(model.text([tip]), folder)
    N, M = section_forces(strip, "BAR", model, stress)
    rows = [("tip u, F L/(E A)", move[tip][0], F * length / (E * area)),
            ("tip v, P L^3/(3 E I) - F e L^2/(2 E I)", move[tip][1],
             P * length**3 / (3 * E * inertia) - F * e * length**2 / (2 * E * inertia)),
            ("N = F, middle", N[20], F),
            ("M = P (L - x) - F e, sign of tension below", M[20],
             F * -e + P * (length - length * 20.5 / 40))]
    for name, value, expected in rows:
        print(f"  {name:45s} {value:14.7g} {expected:14.7g} {value / expected - 1:+.1e}")
        assert abs(value / expected - 1) < 2e-3, name


def difference(one, other):
    """Largest difference of each result, over its largest value."""
    out = {"gap_opening": abs(one.gap_opening_in / other.gap_opening_in - 1)}
    for field in FIELDS:
        a, b = getattr(one, field), getattr(other, field)
        out[field.rsplit("_", 1)[0]] = max(abs(p - q) for p, q in zip(a, b)) / max(map(abs, b))
    return rounded(out, 2)


def as_map(result, fields):
    return {"gap_opening_in": result.gap_opening_in} | {f: getattr(result, f) for f in fields}


def case(name, note, ccx, beams, table):
    """`table`: stations for stresses, or None for all intervals."""
    fields = FIELDS if table is None else ["reaction_kip"]
    out = {"name": name, "note": note, "largest_difference_1": difference(ccx, beams)}
    for key, result in (("ccx", ccx), ("beams", beams)):
        out[key] = as_map(result, fields)
        if table is not None:
            out[key]["stations"] = station_table(result, table)
    for key, result in (("ccx", ccx), ("beams", beams)):
        print(f"{name}, {key}: opening {result.gap_opening_in:.6g} in, reactions "
              f"{[round(r, 4) for r in result.reaction_kip]} kip")
    print("  largest differences over largest values:", out["largest_difference_1"])
    return out


def three_cases(folder):
    shear = {"girder": GIRDER_GA_KIP / MODEL["girder_A_in2"],
             "deck": DECK_GA_KIP / chain("deck")[0]}
    coarse = solve(folder, 5.0, 4), jacking_beams.solve(5.0)
    fine = solve(folder, 1.25, 2), jacking_beams.solve(1.25)
    soft = solve(folder, 1.25, 2, shear), jacking_beams.solve(1.25, GIRDER_GA_KIP, DECK_GA_KIP)
    cases = [
        case("links_5ft", "links every 5 ft, Bernoulli; N and M at the middle of each interval",
             *coarse, None),
        case("links_1p25ft", "links every 1.25 ft, Bernoulli; both sides of stations away from "
             "anchors and gap: means of the two nearest intervals carried on", *fine, STATIONS_FT),
        case("links_1p25ft_shear", "the same with shear deformation: girder G = E/2.6 on a web of "
             "60 x 0.5625 in, deck G = E/2.4 on 5/6 of its area", *soft, STATIONS_FT)]
    return cases, coarse, fine


def main():
    options = argparse.ArgumentParser()
    options.add_argument("--keep", help="folder for the ccx files")
    folder = pathlib.Path(options.parse_args().keep or tempfile.mkdtemp())
    folder.mkdir(parents=True, exist_ok=True)
    version = subprocess.run(["ccx", "-v"], capture_output=True, text=True).stdout.split()[-1]
    print("ccx", version, "cantilever of 40 elements: found, closed form, relative difference")
    check_cantilever(folder)
    cases, coarse, fine = three_cases(folder)
    note = ["Elastic jacking of an invented girder line, independent models of the same mechanics:",
            f"plane-stress continuum (ccx {version}), beams by direct stiffness with multipliers."]
    data = pathlib.Path(__file__).resolve().parents[2] / "tests" / "data"
    data.mkdir(exist_ok=True)
    write_json(data / "jacking_oracle.json", {
        "source": " ".join(note), "command": "/usr/bin/python3 tools/oracle/jacking_ccx.py",
        "units": "ft, in, kip, ksi; tension positive; moment positive with tension at the bottom, "
                 "about the centroid; reactions and rise positive upwards, due to the thrust alone",
        "mesh": "ccx: CPS8R, four elements between links at 5 ft and two at 1.25 ft, girder three "
                f"layers, deck one; modulus across (and shear, but in the last case) {RIGID:g} E",
        "model": MODEL, "cases": cases})
    prefixes = ("jacking_ccx", "jacking_beams")
    write_header(data / "jacking_oracle.h", note, dict(zip(prefixes, coarse)),
                 dict(zip((f"{p}_fine" for p in prefixes), fine)), STATIONS_FT)


if __name__ == "__main__":
    main()
