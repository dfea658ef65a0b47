"""A slab of 20-node solid elements on a rectilinear grid for the general-purpose solver ccx."""
import itertools
import pathlib
import subprocess

NU = 0.2  # concrete, AASHTO LRFD 5.4.2.5 (from memory)


def half_steps(values):
    out = [values[0]]
    for a, b in zip(values, values[1:]):
        out += [(a + b) / 2, b]
    return out


def index(values, at):
    found = min(range(len(values)), key=lambda k: abs(values[k] - at))
    assert abs(values[found] - at) < 1e-6, at
    return found


class Slab:
    """x across the bridge, y along it, z up; inch and kip. Nodes stand on the grid of half steps."""

    def __init__(self, x, y, z):
        self.lines = (x, y, z)
        self.grid = tuple(half_steps(v) for v in (x, y, z))
        self.step = (1, len(self.grid[0]), len(self.grid[0]) * len(self.grid[1]))

    def node(self, i, j, k):
        return 1 + i + j * self.step[1] + k * self.step[2]

    def nodes(self, x=None, y=None, z=None):
        """Of a plane or line: those that exist have at most one index between corners."""
        ranges = [range(len(g)) if at is None else [index(g, at)]
                  for g, at in zip(self.grid, (x, y, z))]
        for i, j, k in itertools.product(*ranges):
            if i % 2 + j % 2 + k % 2 <= 1:
                yield self.node(i, j, k), (i, j, k)

    def elements(self):
        low = [(0, 0), (2, 0), (2, 2), (0, 2)]
        side = [(1, 0), (2, 1), (1, 2), (0, 1)]
        counts = [len(v) - 1 for v in self.lines]
        for number, (k, j, i) in enumerate(
                itertools.product(range(counts[2]), range(counts[1]), range(counts[0])), 1):
            at = [(a, b, 0) for a, b in low] + [(a, b, 2) for a, b in low]
            at += [(a, b, 0) for a, b in side] + [(a, b, 2) for a, b in side]
            at += [(a, b, 1) for a, b in low]
            yield number, (i, j, k), [self.node(2 * i + a, 2 * j + b, 2 * k + c) for a, b, c in at]

    def top_elements(self, x0, x1, y0, y1):
        """Elements under the patch; their edges must be those of the grid."""
        i0, i1 = index(self.lines[0], x0), index(self.lines[0], x1)
        j0, j1 = index(self.lines[1], y0), index(self.lines[1], y1)
        nx, ny, nz = (len(v) - 1 for v in self.lines)
        return [1 + i + nx * (j + ny * (nz - 1)) for j in range(j0, j1) for i in range(i0, i1)]

    def text(self, fixed, patches):
        """`fixed`: (node, direction); one step a list of (elements, pressure) on the top face."""
        out = ["*NODE,NSET=ALL"]
        for n, (i, j, k) in self.nodes():
            out.append(f"{n},{self.grid[0][i]:.9f},{self.grid[1][j]:.9f},{self.grid[2][k]:.9f}")
        out.append("*ELEMENT,TYPE=C3D20R,ELSET=SLAB")
        for number, _, nodes in self.elements():
            out += [f"{number}," + ",".join(map(str, nodes[:15])) + ",",
                    ",".join(map(str, nodes[15:]))]
        out += ["*MATERIAL,NAME=M", "*ELASTIC", f"5000.,{NU}", "*SOLID SECTION,ELSET=SLAB,MATERIAL=M",
                "*NSET,NSET=SOFFIT"] + [f"{n}," for n, _ in self.nodes(z=self.lines[2][0])]
        out += ["*BOUNDARY"] + [f"{n},{d},{d}" for n, d in fixed]
        for patch in patches:
            out += ["*STEP", "*STATIC", "*DLOAD,OP=NEW"]
            out += [f"{e},P2,{pressure:.12g}" for elements, pressure in patch for e in elements]
            out += ["*EL FILE,NSET=SOFFIT", "S", "*END STEP"]
        return "\n".join(out + [""])


def run(text, folder):
    """Stress yy by node, one map a step."""
    folder = pathlib.Path(folder)
    (folder / "slab.inp").write_text(text)
    done = subprocess.run(["ccx", "-i", "slab"], cwd=folder, capture_output=True, text=True,
                          check=True)
    if "*ERROR" in done.stdout:
        raise RuntimeError(done.stdout[-2000:])
    steps, inside = [], False
    for line in (folder / "slab.frd").read_text().splitlines():
        if line.startswith(" -4"):
            inside = line.split()[1] == "STRESS"
            if inside:
                steps.append({})
        elif inside and line.startswith(" -1"):
            steps[-1][int(line[3:13])] = float(line[25:37])
    return steps
