"""Second model of the jacking oracle: two chains of Bernoulli (or Timoshenko) beams by direct
stiffness, every link and support an exact constraint with a Lagrange multiplier, no penalty.
Written from the mechanics alone: a plane section moves u(y) = u - theta y; girder nodes at the
girder's top, deck nodes at mid-depth, links meet at the deck's soffit."""
import numpy
from scipy.sparse import bmat, coo_matrix
from scipy.sparse.linalg import spsolve

from jacking_model import MODEL, Result, chain, in_gap, stations_ft

IN_PER_FT = 12.0


def natural_modes(length, y_from, y_to):
    """Stretch of the axis and the rotations of both ends against its chord, from u, v, theta of
    both nodes; y: heights of the axis above the nodes."""
    return numpy.array([[-1, 0, y_from, 1, 0, -y_to],
                        [0, 1 / length, 1, 0, -1 / length, 0],
                        [0, 1 / length, 0, 0, -1 / length, 1]], float)


def natural_stiffness(length, EA, EI, GA):
    """Forces N, M_from, M_to (counter-clockwise on the element's ends) of the natural modes."""
    shear = 0.0 if GA is None else 12 * EI / (GA * length**2)
    c = EI / (length * (1 + shear))
    return numpy.array([[EA / length, 0, 0], [0, c * (4 + shear), c * (2 - shear)],
                        [0, c * (2 - shear), c * (4 + shear)]])


class Beams:
    def __init__(self, stations, girder_GA=None, deck_GA=None):
        self.x = [IN_PER_FT * x for x in stations]
        self.stations = stations
        self.has_deck = [not in_gap(x) for x in stations]
        self.unknowns, self.triplets, self.rows = 6 * len(stations), [], []
        self.bars = []
        for i in range(len(stations) - 1):
            axis = -MODEL["girder_centroid_below_top_in"]
            self.add_bar("girder", i, axis, MODEL["girder_E_ksi"], girder_GA)
            if not in_gap((stations[i] + stations[i + 1]) / 2):
                self.add_bar("deck", i, 0.0, MODEL["deck_E_ksi"], deck_GA)
        for i, there in enumerate(self.has_deck):  # deck nodes inside the gap stay where they are
            for which in range(0 if there else 3):
                self.rows.append({6 * i + 3 + which: 1.0})
        self.add_links()
        self.bearings = [self.add_bearing(k, x) for k, x in enumerate(MODEL["supports_ft"])]

    def nodes(self, name, i):
        start = 3 if name == "deck" else 0
        return [6 * i + start + k for k in range(3)] + [6 * (i + 1) + start + k for k in range(3)]

    def add_bar(self, name, i, y, modulus, GA):
        area, inertia, _, _ = chain(name)
        length = self.x[i + 1] - self.x[i]
        modes = natural_modes(length, y, y)
        stiff = natural_stiffness(length, modulus * area, modulus * inertia, GA)
        where, k = self.nodes(name, i), modes.T @ stiff @ modes
        self.triplets += [(where[a], where[b], k[a, b]) for a in range(6) for b in range(6)]
        self.bars.append((name, i, stiff @ modes))

    def add_links(self):
        down, up = MODEL["deck_t_in"] / 2, MODEL["haunch_in"]
        for i, x in enumerate(self.stations):
            if not self.has_deck[i]:
                continue
            G, D = 6 * i, 6 * i + 3
            self.rows.append({D + 1: 1.0, G + 1: -1.0})
            if any(a <= x <= b for a, b in MODEL["anchors_ft"]):
                self.rows.append({D: 1.0, D + 2: down, G: -1.0, G + 2: up})

    def add_bearing(self, k, x):
        i = self.stations.index(x)
        self.rows.append({6 * i + 1: 1.0})
        if k == MODEL["fixed_support"]:
            self.rows.append({6 * i: 1.0})
            return len(self.rows) - 2
        return len(self.rows) - 1

    def solve(self):
        r, c, v = zip(*self.triplets)
        K = coo_matrix((v, (r, c)), shape=(self.unknowns, self.unknowns))
        entries = [(k, j, a) for k, row in enumerate(self.rows) for j, a in row.items()]
        r, c, v = zip(*entries)
        scale = 1e4  # a constraint may be multiplied by anything; this keeps the pivots alike
        C = scale * coo_matrix((v, (r, c)), shape=(len(self.rows), self.unknowns))
        load = numpy.zeros(self.unknowns + len(self.rows))
        faces = [6 * self.stations.index(x) + 3 for x in MODEL["gap_ft"]]
        load[faces[0]], load[faces[1]] = -MODEL["thrust_kip"], MODEL["thrust_kip"]
        A = bmat([[K, C.T], [C, None]], format="csc")
        solution = spsolve(A, load)
        solution += spsolve(A, load - A @ solution)
        return solution[:self.unknowns], -scale * solution[self.unknowns:], faces


def solve(link_ft, girder_GA=None, deck_GA=None):
    model = Beams(stations_ft(link_ft), girder_GA, deck_GA)
    x, forces, faces = model.solve()
    intervals = len(model.stations) - 1
    table = {key: [0.0] * intervals for key in ("deck_N", "deck_M", "girder_N", "girder_M")}
    for name, i, recover in model.bars:
        N, M_from, M_to = recover @ x[model.nodes(name, i)]
        table[f"{name}_N"][i] = float(N)
        # ends turned counter-clockwise: the left one puts tension on top, the right one below
        table[f"{name}_M"][i] = float(M_to - M_from) / 2
    return Result(stations_ft=model.stations,
                  reaction_kip=[float(forces[k]) for k in model.bearings],
                  gap_opening_in=float(x[faces[1]] - x[faces[0]]),
                  rise_in=[float(v) for v in x[1::6]],
                  deck_N_kip=table["deck_N"], deck_M_kipin=table["deck_M"],
                  girder_N_kip=table["girder_N"], girder_M_kipin=table["girder_M"])
