#!/usr/bin/python3
"""Oracle for the spread of a jack's force in the panels behind it: plane stress in the
general-purpose solver ccx; writes tests/data/jacks_oracle.h.

    /usr/bin/python3 tools/oracle/jacks_ccx.py [--keep DIR] [--mesh]    needs ccx, clang-format

Across the bridge: a row of jacks, half of the deck, free edge. Through the depth: the deck as a strip, free top and soffit, jack at and
off mid-depth. A jack presses evenly on its plate; far away the strip is held lengthwise. Tension is
the stress across times its length where it pulls, by the grid's 2 x 2 points.
"""
import argparse
import pathlib
import subprocess
import tempfile

import jacking_ccx


def lines(length, finest, growth, widest):
    out, step = [0.0], finest
    while out[-1] < length - 1e-9:
        out.append(min(out[-1] + step, length))
        step = min(step * growth, widest)
    return out


class Plate:
    """x away from the jacks, y along the face; thickness 1; jacks (middle, width, force)."""

    def __init__(self, x, y):
        self.strip = jacking_ccx.Strip(1, x, y, 1.0, 1.0)
        self.strip.thickness = 1.0
        self.model = jacking_ccx.Input()

    def solve(self, folder, jacks, sides):
        s, m = self.strip, self.model
        m.node_lines = [f"{n},{x:.9f},{y:.9f},0" for n, x, y in s.nodes(0.0)]
        out = ["*ELEMENT,TYPE=CPS8R,ELSET=PLATE"]
        for number, (column, layer, nodes) in enumerate(s.elements(), 1):
            m.element_of[number] = ("PLATE", column, layer)
            out.append(f"{number}," + ",".join(map(str, nodes)))
        m.sections = out + ["*MATERIAL,NAME=PLATE", "*ELASTIC", "5000.,0.2",
                            "*SOLID SECTION,ELSET=PLATE,MATERIAL=PLATE", "1."]
        held = [s.node(s.columns - 1, r) for r in range(s.rows)]
        m.boundary = [(n, 1) for n in held]
        if not sides:
            m.boundary.append((held[0], 2))
        for row in sides:
            m.boundary += [(s.node(c, row), 2) for c in range(s.columns)]
        m.loads = [load for jack in jacks for load in self.face(*jack)]
        stress = run(m.text(held[:1]), folder)
        return {(m.element_of[e][1], m.element_of[e][2]): points for e, points in stress.items()}

    def face(self, middle, width, force):
        """An even pressure as forces of the nodes of a parabola: 1/6, 4/6, 1/6 a length."""
        for r, (a, b) in enumerate(zip(self.strip.y, self.strip.y[1:])):
            if abs((a + b) / 2 - middle) < width / 2:
                f = force / width * (b - a)
                for k, share in enumerate((1 / 6, 4 / 6, 1 / 6)):
                    yield self.strip.node(0, 2 * r + k), 1, f * share

    def pull(self, stress, at):
        """Tension (first) behind the face and (second) from the face on, on the row nearest `at`:
        sums over the columns where it pulls."""
        y, x = self.strip.y, self.strip.x
        layer = min(range(len(y) - 1), key=lambda r: abs((y[r] + y[r + 1]) / 2 - at))
        mean = [sum(p) / len(p) for p in (stress[c, layer] for c in range(len(x) - 1))]
        parts = [max(f, 0) * (b - a) for f, a, b in zip(mean, x, x[1:])]
        first = 0.0
        for f, part in zip(mean, parts):
            if f <= 0:
                break
            first += part
        return sum(parts), first


def run(text, folder):
    """Stress yy at the points of each element."""
    folder = pathlib.Path(folder)
    (folder / "plate.inp").write_text(text)
    done = subprocess.run(["ccx", "-i", "plate"], cwd=folder, capture_output=True, text=True,
                          check=True)
    if "*ERROR" in done.stdout:
        raise RuntimeError(done.stdout[-2000:])
    stress, inside = {}, False
    for line in (folder / "plate.dat").read_text().splitlines():
        words = line.split()
        if words and not words[0].isdigit():
            inside = words[0] == "stresses"
        elif words and inside:
            stress.setdefault(int(words[0]), []).append(float(words[3]))
    return stress


def deck(folder, a, jacks, fine=40):
    """Half of a deck of `jacks`, spacing 1, its outer edge free (y = 0), symmetry at y = jacks/2."""
    half = jacks / 2
    y = [k / fine for k in range(int(half * fine) + 1)]
    plate = Plate(lines(8.0, 1 / fine, 1.1, 0.4), y)
    places = [0.5 + k for k in range(int(half + 0.5))]
    stress = plate.solve(folder, [(p, a, 1.0) for p in places], (plate.strip.rows - 1,))
    return ([plate.pull(stress, p)[0] for p in places],
            [plate.pull(stress, k + 1.0)[1] for k in range(int(half))])


def prism(folder, a, off=0.0, fine=80):
    """A strip of depth 1, free sides, plate a, `off` from the middle: bursting at the jack, and the
    tension of the face at the far side and anywhere."""
    y = [k / fine for k in range(fine + 1)]
    plate = Plate(lines(4.0, 1 / fine, 1.05, 0.1), y)
    stress = plate.solve(folder, [(0.5 + off, a, 1.0)], ())
    rows = [(r + 0.5) / fine for r in range(fine)]
    return (plate.pull(stress, 0.5 + off)[0], max(plate.pull(stress, r)[0] for r in rows),
            max(plate.pull(stress, r)[1] for r in rows))


DECKS = [(0.1, 4), (0.2, 4), (0.35, 6), (0.5, 6), (0.7, 6), (0.8, 6)]
PRISMS = [(0.3, 0.0), (0.5, 0.0), (0.7, 0.0), (0.8, 0.0), (0.6, 0.0625), (0.75, 0.0625),
          (0.6, 0.125), (0.5, 0.125)]


def meshes(folder):
    for fine in (20, 40, 80):
        burst, edge = deck(folder, 0.2, 4, fine)
        print(f"4 jacks, plate 0.2, {fine} elements a spacing: {max(burst):.5g} {max(edge):.5g}")
    print(f"prism 0.6 off by 0.0625, 40 and 80 elements: {prism(folder, 0.6, 0.0625, 40)[1]:.5g} "
          f"{prism(folder, 0.6, 0.0625, 80)[1]:.5g}")


def main():
    options = argparse.ArgumentParser()
    options.add_argument("--keep", help="folder for the ccx files")
    options.add_argument("--mesh", action="store_true", help="print finer meshes beside each other")
    given = options.parse_args()
    folder = pathlib.Path(given.keep or tempfile.mkdtemp())
    folder.mkdir(parents=True, exist_ok=True)
    if given.mesh:
        meshes(folder)
    decks = []
    for a, jacks in DECKS:
        burst, edge = deck(folder, a, jacks)
        decks.append(f"    {{{a:g}, {jacks}, {max(burst):.4g}, {max(edge):.4g}}},")
    prisms = [f"    {{{a:g}, {off:g}, {prism(folder, a, off)[1]:.4g}}}," for a, off in PRISMS]
    out = ["/* Spread of a jack's force, plane stress in ccx 2.20; tensions over one jack. Written by",
           " * tools/oracle/jacks_ccx.py. */",
           "#ifndef CLENCH_TESTS_JACKS_ORACLE_H", "#define CLENCH_TESTS_JACKS_ORACLE_H", "",
           "/* jacks in a row, free edges of the deck: plate over spacing, jacks, bursting, face between two */",
           "static const double jacks_ccx_deck[][4] = {"] + decks + ["};", "",
           "/* over the depth: plate and distance from mid-depth over the depth, bursting */",
           "static const double jacks_ccx_depth[][3] = {"] + prisms + ["};", "", "#endif", ""]
    path = pathlib.Path(__file__).resolve().parents[2] / "tests/data/jacks_oracle.h"
    path.write_text("\n".join(out))
    subprocess.run(["clang-format", "-i", str(path)], check=True)


if __name__ == "__main__":
    main()
