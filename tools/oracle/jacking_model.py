"""The girder line of the jacking oracle (an invented one), shared by both of its models, and the
writing of their results. Lengths in inch or foot as named, forces in kip, stresses in ksi; tension
positive, moment positive with tension at the bottom, forces on the girder positive upwards."""
import dataclasses
import json
import subprocess

MODEL = {
    "supports_ft": [0.0, 120.0, 270.0, 390.0],
    "fixed_support": 1,
    "girder_E_ksi": 29000.0, "girder_A_in2": 76.75, "girder_I_in4": 49019.0,
    "girder_centroid_below_top_in": 35.46, "girder_bottom_below_centroid_in": 27.04,
    "deck_E_ksi": 4800.0, "deck_b_in": 114.0, "deck_t_in": 9.0, "haunch_in": 2.0,
    "anchors_ft": [[0.0, 10.0], [380.0, 390.0]],
    "gap_ft": [190.0, 200.0],
    "thrust_kip": 1000.0,
}
MOMENT_SI = 4448.2216152605 * 0.0254  # N m in a kip inch, exact by definition (NIST SP 811)
SI = {"kip": 4448.2216152605, "kipin": MOMENT_SI, "in": 0.0254, "ft": 0.3048,
      "ksi": 4448.2216152605 / 0.0254**2}


@dataclasses.dataclass
class Result:
    """N and M are those at the middle of each interval between stations."""
    stations_ft: list
    reaction_kip: list
    gap_opening_in: float
    rise_in: list
    deck_N_kip: list
    deck_M_kipin: list
    girder_N_kip: list
    girder_M_kipin: list


def stations_ft(link_ft):
    """Links every link_ft, none inside the gap: there only the girder has stations."""
    length = MODEL["supports_ft"][-1]
    count = round(length / link_ft)
    return [link_ft * k for k in range(count + 1)]


def in_gap(x_ft):
    return MODEL["gap_ft"][0] < x_ft < MODEL["gap_ft"][1]


def chain(name):
    """Area, inertia, centroid to top and to bottom."""
    m = MODEL
    if name == "girder":
        return (m["girder_A_in2"], m["girder_I_in4"], m["girder_centroid_below_top_in"],
                m["girder_bottom_below_centroid_in"])
    t = m["deck_t_in"]
    return m["deck_b_in"] * t, m["deck_b_in"] * t**3 / 12, t / 2, t / 2


def stress(name, N, M):
    """Top and bottom, ksi."""
    area, inertia, top, bottom = chain(name)
    return N / area - M * top / inertia, N / area + M * bottom / inertia


def at_station(result, name, x_ft, side):
    """N and M of a chain at a station: the two nearest interval means of that side, carried on."""
    i = min(range(len(result.stations_ft)), key=lambda k: abs(result.stations_ft[k] - x_ft))
    assert abs(result.stations_ft[i] - x_ft) < 1e-9
    near, far = (i, i + 1) if side > 0 else (i - 1, i - 2)
    N, M = getattr(result, f"{name}_N_kip"), getattr(result, f"{name}_M_kipin")
    return 1.5 * N[near] - 0.5 * N[far], 1.5 * M[near] - 0.5 * M[far]


def station_table(result, where_ft):
    rows = []
    for x in where_ft:
        for side in (-1, 1):
            row = {"x_ft": x, "side": side}
            for name in ("deck", "girder"):
                N, M = at_station(result, name, x, side)
                top, bottom = stress(name, N, M)
                row |= {f"{name}_N_kip": N, f"{name}_M_kipin": M, f"{name}_top_ksi": top,
                        f"{name}_bottom_ksi": bottom}
            rows.append(row)
    return rows


def rounded(value, digits=8):
    if isinstance(value, float):
        return float(f"{value:.{digits}g}") + 0.0
    if isinstance(value, dict):
        return {k: rounded(v, digits) for k, v in value.items()}
    if isinstance(value, list):
        return [rounded(v, digits) for v in value]
    return value


def write_json(path, data):
    """A list or map of plain values stands on one line."""
    def text(value, pad):
        if not isinstance(value, (dict, list)):
            return json.dumps(value)
        items = value.values() if isinstance(value, dict) else value
        if not any(isinstance(v, (dict, list)) for v in items):
            return json.dumps(value)
        deeper, (opening, closing) = pad + "  ", "{}" if isinstance(value, dict) else "[]"
        if isinstance(value, dict):
            parts = [f"{json.dumps(k)}: {text(v, deeper)}" for k, v in value.items()]
        else:
            parts = [text(v, deeper) for v in value]
        return f"{opening}\n{deeper}" + f",\n{deeper}".join(parts) + f"\n{pad}{closing}"
    path.write_text(text(rounded(data), "") + "\n")


def c_array(name, values, unit, comment):
    numbers = [f"{v * SI[unit]:.8g}" for v in values]
    lines, line = [], "   "
    for number in numbers:
        if len(line) + len(number) > 96:
            lines.append(line)
            line = "   "
        line += f" {number},"
    return "\n".join([f"/* {comment} */", f"static const double {name}[{len(values)}] = {{"]
                     + lines + [line, "};", ""])


INTERVAL_FIELDS = {
    "reaction_kip": ("N", "kip", "due to thrust, upwards, by support"),
    "deck_N_kip": ("N", "kip", "at the middle of each interval between links"),
    "deck_M_kipin": ("Nm", "kipin", "at the middle of each interval, about the centroid"),
    "girder_N_kip": ("N", "kip", "at the middle of each interval"),
    "girder_M_kipin": ("Nm", "kipin", "at the middle of each interval, about the centroid"),
    "rise_in": ("m", "in", "of the girder at each station")}


def interval_arrays(prefix, result):
    out = [f"static const double {prefix}_gap_opening_m = {result.gap_opening_in * SI['in']:.9g};"]
    for field, (si, unit, comment) in INTERVAL_FIELDS.items():
        name = f"{prefix}_{field.rsplit('_', 1)[0]}_{si}"
        out.append(c_array(name, getattr(result, field), unit, comment))
    return out


def station_arrays(prefix, result, where_ft):
    out = [f"static const double {prefix}_gap_opening_m = {result.gap_opening_in * SI['in']:.9g};",
           c_array(f"{prefix}_reaction_N", result.reaction_kip, "kip", "by support")]
    rows = station_table(result, where_ft)
    for name in ("deck_top", "deck_bottom", "girder_top", "girder_bottom"):
        out.append(c_array(f"{prefix}_{name}_Pa", [r[f"{name}_ksi"] for r in rows], "ksi",
                           "at each station, left then right of it"))
    return out


def write_header(path, note, coarse, fine, where_ft):
    """Results in SI; `coarse` and `fine` map a prefix to a Result."""
    out = [f"/* {note[0]}", f" * {note[1]}",
           " * Links every 5 ft, and (fine) every 1.25 ft; model: see "
           "jacking_oracle.json. Written by", " * tools/oracle/jacking_ccx.py. */",
           "#ifndef CLENCH_TESTS_JACKING_ORACLE_H", "#define CLENCH_TESTS_JACKING_ORACLE_H", ""]
    for prefix, result in coarse.items():
        out += interval_arrays(prefix, result)
    out.append(c_array("jacking_fine_x_m", where_ft, "ft", "stations of the fine tables"))
    for prefix, result in fine.items():
        out += station_arrays(prefix, result, where_ft)
    path.write_text("\n".join(out + ["#endif\n"]))
    subprocess.run(["clang-format", "-i", str(path)], check=True)
