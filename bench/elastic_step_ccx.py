#!/usr/bin/python3
"""One elastic step of one causeway span in the general-purpose solver ccx, timed as a whole process.

    /usr/bin/python3 bench/elastic_step_ccx.py [--stations N] [--runs N] [--keep DIR]      needs ccx

A girder and a deck of two-node beams (U1) on the same stations, the deck open at the jacking gap; links
are equations that meet at the deck's soffit: vertical everywhere, longitudinal as well over the anchors.
The load is a pair of forces across the gap. Its opening is checked against the closed form of
docs/theory.md, "By hand". Prints the seconds of each run, then "minimum median".
"""
import argparse
import pathlib
import resource
import statistics
import subprocess
import sys
import tempfile
import time

# Of examples/causeway.yaml, interior line; inch and kip. Girder: BT-54 (PCI standard section).
SPAN, ANCHOR, GAP = 94 * 12.0, 12 * 12.0, 6 * 12.0
GIRDER = {"E": 5600.0, "A": 659.0, "I": 268077.0, "below_top": 54 - 27.63}
DECK = {"E": 4900.0, "A": 102 * 8.0, "I": 102 * 8.0**3 / 12, "half": 4.0}
HAUNCH, THRUST = 2.0, 263.0
FACES = ((SPAN - GAP) / 2, (SPAN + GAP) / 2)


def stations(count):
    """Anchor ends and gap faces are stations; the rest evenly between them."""
    marks = [0.0, ANCHOR, *FACES, SPAN - ANCHOR, SPAN]
    out = [0.0]
    for a, b in zip(marks, marks[1:]):
        parts = max(1, round((count - 1) * (b - a) / SPAN))
        out += [a + (b - a) * (k + 1) / parts for k in range(parts)]
    return out


def in_gap(x):
    return FACES[0] < x < FACES[1]


def girder(i):
    return i + 1


def deck(i):
    return 100001 + i


def beam_lines(name, first, pairs, part):
    lines = [f"*ELEMENT,TYPE=U1,ELSET={name}"]
    lines += [f"{first + k},{a},{b}" for k, (a, b) in enumerate(pairs)]
    lines += [f"*MATERIAL,NAME={name}", "*ELASTIC", f"{part['E']:.12g},0.",
              f"*BEAM SECTION,ELSET={name},MATERIAL={name},SECTION=GENERAL",
              f"{part['A']:.12g},{part['I']:.12g},0.,{part['I']:.12g},0.833333", "0.,1.,0."]
    return lines


def link_lines(x):
    """v of deck and girder alike; over the anchors u as well, where both arms end: the soffit."""
    up = GIRDER["below_top"] + HAUNCH
    lines = []
    for i, at in enumerate(x):
        if in_gap(at):
            continue
        lines += ["*EQUATION", "2", f"{deck(i)},2,1.,{girder(i)},2,-1."]
        if at <= ANCHOR or at >= SPAN - ANCHOR:
            lines += ["*EQUATION", "4", f"{deck(i)},1,1.,{deck(i)},6,{DECK['half']},"
                      f"{girder(i)},1,-1.,{girder(i)},6,{up}"]
    return lines


def model(x):
    level = GIRDER["below_top"] + HAUNCH + DECK["half"]
    here = [i for i, at in enumerate(x) if not in_gap(at)]
    lines = ["*NODE,NSET=ALL"]
    lines += [f"{girder(i)},{at:.9g},0.,0." for i, at in enumerate(x)]
    lines += [f"{deck(i)},{x[i]:.9g},{level},0." for i in here]
    lines += ["*USER ELEMENT,TYPE=U1,NODES=2,INTEGRATION POINTS=2,MAXDOF=6"]
    lines += beam_lines("GIRDER", 1, [(girder(i), girder(i + 1)) for i in range(len(x) - 1)], GIRDER)
    pairs = [(deck(i), deck(i + 1)) for i in here[:-1] if i + 1 in here and not in_gap(
        (x[i] + x[i + 1]) / 2)]
    lines += beam_lines("DECK", 100001, pairs, DECK) + link_lines(x)
    left, right = (min(here, key=lambda i: abs(x[i] - face)) for face in FACES)
    lines += ["*BOUNDARY", "ALL,3,5", f"{girder(0)},1,2", f"{girder(len(x) - 1)},2"]
    lines += ["*STEP", "*STATIC", "*CLOAD", f"{deck(left)},1,{-THRUST}", f"{deck(right)},1,{THRUST}"]
    lines += ["*NSET,NSET=FACES", f"{deck(left)},{deck(right)}", "*NODE PRINT,NSET=FACES", "U"]
    return "\n".join(lines + ["*END STEP", ""])


def run(folder):
    """Wall and CPU seconds of the whole process."""
    before, start = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
    done = subprocess.run(["ccx", "-i", "job"], cwd=folder, capture_output=True, text=True, check=True,
                          env={"PATH": "/usr/bin:/bin", "OMP_NUM_THREADS": "1"})
    wall, after = time.perf_counter() - start, resource.getrusage(resource.RUSAGE_CHILDREN)
    if "*ERROR" in done.stdout:
        raise RuntimeError(done.stdout[-2000:])
    return wall, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def opening(folder):
    rows = [line.split() for line in (folder / "job.dat").read_text().splitlines()]
    moves = [float(row[1]) for row in rows if len(row) >= 4 and row[0].isdigit()]
    return moves[1] - moves[0]


def by_hand():
    """Between the inner faces of the anchors; deck and girder share their curvature."""
    length, e = SPAN - 2 * ANCHOR, GIRDER["below_top"] + HAUNCH + DECK["half"]
    EI_g, EI_d = GIRDER["E"] * GIRDER["I"], DECK["E"] * DECK["I"]
    return THRUST * ((length - GAP) / (DECK["E"] * DECK["A"]) + length / (GIRDER["E"] * GIRDER["A"])
                     + e**2 * ((length - GAP) / (EI_g + EI_d) + GAP / EI_g))


def main():
    options = argparse.ArgumentParser()
    options.add_argument("--stations", type=int, default=61)
    options.add_argument("--runs", type=int, default=11)
    options.add_argument("--keep", help="folder for the ccx files")
    given = options.parse_args()
    folder = pathlib.Path(given.keep or tempfile.mkdtemp())
    folder.mkdir(parents=True, exist_ok=True)
    x = stations(given.stations)
    (folder / "job.inp").write_text(model(x))
    times = [run(folder) for _ in range(given.runs)]
    found, hand = opening(folder), by_hand()
    print(f"{len(x)} stations, gap opens by {found:.5f} in, by hand {hand:.5f} in", file=sys.stderr)
    if abs(found / hand - 1) > 0.02:
        raise SystemExit("the model in ccx is not the one that was meant")
    for wall, cpu in times:
        print(f"{wall:.4f} s wall {cpu:.4f} s cpu", file=sys.stderr)
    walls = [wall for wall, _ in times]
    print(f"{min(walls):.6f} {statistics.median(walls):.6f} {min(cpu for _, cpu in times):.6f}")


if __name__ == "__main__":
    main()
