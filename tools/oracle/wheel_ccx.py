#!/usr/bin/python3
"""Oracle for the deck's bending along the bridge under wheels: solids of finite width in the
general-purpose solver ccx; writes tests/data/wheel_oracle.h.

    /usr/bin/python3 tools/oracle/wheel_ccx.py [--keep DIR] [--mesh]    needs ccx, clang-format

Deck: of even thickness, elastic, over three or four bays; instead of girders knife edges under its
middle surface, which do not deflect; free overhangs. Strip: one bay on two of them. Both are half
models about the wheels' line, so long that the far end does not count. A wheel is a uniform pressure on 20 by 10 in.
A stress is told as a moment per width over one wheel, f t^2/(6 P).
"""
import argparse
import pathlib
import subprocess
import tempfile

import solid

PATCH_IN = (20.0, 10.0)  # AASHTO LRFD 3.6.1.2.5 (from memory)
STEP_IN = 12.0
EDGE_IN = 30.0  # wheels keep 1 ft from a barrier of 18 in
# wheels of a row from its first one, presence factor; trucks 6 ft wide, 4 ft apart (3.6.1.3.1)
ROWS = {"wheel": ([0.0], 1.2), "truck": ([0.0, 72.0], 1.2), "trucks": ([0.0, 72.0, 120.0, 192.0], 1.0)}


def even(length, step):
    count = round(length / step)
    return [length * k / count for k in range(count + 1)]


def along(far, finest):
    """Lines along the bridge: fine over half the patch, then ever wider."""
    out = even(PATCH_IN[1] / 2, finest)
    step = finest
    while out[-1] < far:
        step = min(1.25 * step, far / 8)
        out.append(out[-1] + step)
    return out


def depth(t, layers):
    return [t * k / layers - t / 2 for k in range(layers + 1)]


def supported(slab, edges):
    fixed = [(n, 2) for n, _ in slab.nodes(y=0.0)]
    for x in edges:
        fixed += [(n, 3) for n, _ in slab.nodes(x=x, z=0.0)]
    return fixed + [(n, 1) for n, _ in slab.nodes(x=edges[0], y=0.0, z=0.0)]


def patch(slab, x):
    half = PATCH_IN[0] / 2
    elements = slab.top_elements(x - half, x + half, 0.0, PATCH_IN[1] / 2)
    return [(elements, 1 / (PATCH_IN[0] * PATCH_IN[1]))]


def strip(folder, a, t, finest=1.0, layers=4):
    """Moment over the wheel under a wheel at the middle of one bay; across, too, fine near the wheel."""
    fine = 20.0  # from the middle
    side = even(a / 2 - fine, 4.0)
    x = side + [a / 2 - fine + v for v in even(2 * fine, finest)[1:]]
    x += [a / 2 + fine + v for v in side[1:]]
    slab = solid.Slab(x, along(4 * a, finest), depth(t, layers))
    step = solid.run(slab.text(supported(slab, [0.0, a]), [patch(slab, a / 2)]), folder)[0]
    node = slab.node(solid.index(slab.grid[0], a / 2), 0, 0)
    return step[node] * t * t / 6


def surfaces(folder, S, t, bays, overhang, across=4.0, finest=2.5, layers=2):
    """Moment at every place of the soffit, by the place of one wheel across the bridge."""
    edges = [overhang + S * k for k in range(bays + 1)]
    x = sorted(set(even(bays * S + 2 * overhang, across) + edges))
    slab = solid.Slab(x, along(2.5 * S, finest), depth(t, layers))
    places = [EDGE_IN + STEP_IN * k for k in range(int((x[-1] / 2 - EDGE_IN) / STEP_IN) + 1)]
    steps = solid.run(slab.text(supported(slab, edges), [patch(slab, p) for p in places]), folder)
    out = {}
    for place, step in zip(places, steps):
        found, mirror = {}, {}
        for n, (i, j, _) in slab.nodes(z=-t / 2):
            found[i, j] = step[n] * t * t / 6
            mirror[len(slab.grid[0]) - 1 - i, j] = step[n] * t * t / 6
        out[place], out[x[-1] - place] = found, mirror
    return out


def worst(surface, row):
    """Largest moment of a row of wheels and largest opposite one, any place across."""
    offsets, presence = ROWS[row]
    largest, least = 0.0, 0.0
    for first in surface:
        wheels = [surface.get(first + offset) for offset in offsets]
        if any(w is None for w in wheels):
            continue
        for at in wheels[0]:
            m = presence * sum(w[at] for w in wheels)
            largest, least = max(largest, m), min(least, m)
    return largest, -least


STRIPS = [(72.0, 8.0), (100.0, 8.0), (144.0, 8.0)]  # span, thickness (in)
DECKS = [(72.0, 4, 42.0), (96.0, 4, 42.0), (120.0, 4, 42.0), (144.0, 4, 42.0),
         (96.0, 3, 66.0)]  # spacing, bays, overhang (in); 8 in thick


def meshes(folder):
    print("strip 100 in, 8 in: by elements through the depth and size under the wheel (in)")
    for layers, finest in ((2, 2.5), (4, 2.5), (4, 1.25), (4, 1.0), (6, 1.0), (4, 0.625)):
        print(f"  {layers}, {finest}: {strip(folder, 100.0, 8.0, finest, layers):.5g}")


def rows(folder):
    for a, t in STRIPS:
        m = strip(folder, a, t)
        print("strip", a, t, f"{m:.5g}", flush=True)
        yield "strip", (a, t, m)
    for S, bays, overhang in DECKS:
        found = surfaces(folder, S, 8.0, bays, overhang)
        each = {row: worst(found, row) for row in ROWS}
        print("deck", S, overhang, {k: [round(m, 4) for m in v] for k, v in each.items()}, flush=True)
        yield "deck", (S, overhang, 8.0) + tuple(max(v[k] for v in each.values()) for k in (0, 1))


def main():
    options = argparse.ArgumentParser()
    options.add_argument("--keep", help="folder for the ccx files")
    options.add_argument("--mesh", action="store_true", help="print finer meshes beside each other")
    given = options.parse_args()
    folder = pathlib.Path(given.keep or tempfile.mkdtemp())
    folder.mkdir(parents=True, exist_ok=True)
    if given.mesh:
        meshes(folder)
    table = {"strip": [], "deck": []}
    for name, values in rows(folder):
        table[name].append("    {" + ", ".join(f"{v:.5g}" for v in values) + "},")
    out = ["/* Bending of a deck along the bridge under wheels, solids in ccx 2.20. Moments per width are",
           " * those of the stress at top or soffit, over one wheel. Written by tools/oracle/wheel_ccx.py. */",
           "#ifndef CLENCH_TESTS_WHEEL_ORACLE_H", "#define CLENCH_TESTS_WHEEL_ORACLE_H", "",
           "/* one bay, one wheel at its middle: span and thickness (in), moment at the soffit */",
           "static const double wheel_ccx_strip[][3] = {"] + table["strip"] + ["};", "",
           "/* several bays, worst place of one truck or two beside each other, presence factor in: spacing,",
           " * overhang, thickness (in), moment at the soffit, opposite one */",
           "static const double wheel_ccx_deck[][5] = {"] + table["deck"] + ["};", "", "#endif", ""]
    path = pathlib.Path(__file__).resolve().parents[2] / "tests/data/wheel_oracle.h"
    path.write_text("\n".join(out))
    subprocess.run(["clang-format", "-i", str(path)], check=True)


if __name__ == "__main__":
    main()
