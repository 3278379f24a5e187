#!/usr/bin/python3
"""Writes the fixed cases into cases/. Everything in them is invented; the seed is fixed, so a second run gives the same bytes."""
import itertools
import json
import math
import os
import random

HERE = os.path.join(os.path.dirname(os.path.abspath(__file__)), "cases")


def limits_of(H, D, counted, size_um, oval_um, taper_um):
    """Largest size, largest out-of-round of a height, largest taper of a direction; counted stations only."""
    def form(**at):
        row = [0] * (H * D)
        for sign, cell in at.values():
            row[cell] = sign
        return row
    levels = [h for h in range(H) if counted[h]]
    size = [form(x=(1, h * D + t)) for h in levels for t in range(D)]
    oval = [form(x=(1, h * D + t), y=(-1, h * D + s)) for h in levels for t, s in itertools.permutations(range(D), 2)]
    taper = [form(x=(1, h * D + t), y=(-1, k * D + t)) for t in range(D) for h, k in itertools.permutations(levels, 2)]
    return [{"forms": f, "bound_um": b} for f, b in ((size, size_um), (oval, oval_um), (taper, taper_um))]


def engine(rng, parts, heights, angles, wear, oval, slip):
    """True sizes of an engine that wears exponentially down its bores; not drawn from the model that judges it."""
    a = rng.gauss(10, 4) + slip
    true = []
    for _ in range(parts):
        mine, w, q = a + rng.gauss(0, 3.4), wear * math.exp(rng.gauss(0, 0.25)), oval * rng.uniform(0.4, 1.0)
        true.append([mine + w * math.exp(-h / 0.4) * (1 + q / 2 * math.cos(2 * math.radians(t))) + rng.gauss(0, 2)
                     for h in heights for t in angles])
    return true


def case(true, cells_of, heights, reference, angles, noise, shared, limits, rng, step, **rest):
    """`shared`: [sd, coefficient by (part, row)]; the drawn errors go into the readings, rounded to the dial step."""
    errors = [rng.gauss(0, sd) for sd, _ in shared]
    parts = []
    for i, cells in enumerate(cells_of):
        y = []
        for k, c in enumerate(cells):
            value = true[i][c] + rng.gauss(0, noise) + sum(e * f(i, k) for e, (_, f) in zip(errors, shared))
            y.append(step * round(value / step))
        parts.append({"id": f"part-{i + 1}", "y_um": y, "cell": list(cells),
                      "noise_var": [noise ** 2 + step ** 2 / 12] * len(cells)})
    return {"note": "Invented for tests of Fettle; no real engine.", "parts": parts, "heights": heights,
            "reference": reference, "angles_deg": angles,
            "shared": [{"sd_um": sd, "coefficients": [[f(i, k) for k in range(len(c))] for i, c in enumerate(cells_of)]}
                       for sd, f in shared],
            "tolerance_um": 20, "as_made_mean_um": 10, "before": "no", "limits": limits, **rest}


def one(_part, _row):
    return 1


def trial():
    rng = random.Random(20261)
    heights, angles = [0.0, 0.5, 1.0], [0, 90]
    true = engine(rng, 4, heights, angles, 55, 0.45, 0)
    return case(true, [range(6)] * 4, heights, [False] * 3, angles, 4, [(5, one)],
                limits_of(3, 2, [True] * 3, 100, 30, 60), rng, 5)


def large():
    rng = random.Random(20262)
    heights, angles = [0.0, 0.2, 0.4, 0.6, 0.8, 1.0], [0, 45, 90, 135]
    true = engine(rng, 12, heights, angles, 45, 0.4, 0)
    return case(true, [range(24)] * 12, heights, [False] * 6, angles, 4, [(5, one)],
                limits_of(6, 4, [True] * 6, 100, 30, 60), rng, 5)


def small():
    """Two parts, stations missing, one read twice, two settings of one master, a foot, three directions."""
    rng = random.Random(20263)
    heights, angles = [0.0, 0.45, 1.0, 1.2], [0, 45, 90]
    cells = [[0, 1, 2, 3, 5, 6, 8, 9, 0, 5], [0, 2, 4, 6, 7, 11]]
    second = lambda i, k: int((i == 0 and k >= 8) or (i == 1 and k >= 3))
    first = lambda i, k: 1 - second(i, k)
    true = engine(rng, 2, heights, angles, 40, 0.5, 0)
    out = case(true, cells, heights, [False, False, False, True], angles, 3,
               [(4, first), (4, second), (3, one), (1.8, one)],
               limits_of(4, 3, [True, True, True, False], 80, 25, 50), rng, 2, before="unknown")
    for k in (8, 9):
        out["parts"][0]["noise_var"][k] = 2.5  # the mean of several readings
    return out


def demo():
    """The demo's three bores (invented) less the flagged reading; the closing zero as a drift taken out and a bridge kept.

    Reading k of n, d = 1 um: shift -d k/n; covariance d^2 (min(k,k')/n - k k'/n^2), written as n sources of sd d/sqrt(n)
    with coefficients [k >= j] - k/n, j = 1..n.
    """
    typed = [[57, 48, 32, 29, 19, 18, 14, 13], [144, 110, 72, 60, 28, 24, 15, 15], [100, 72, 50, 42, 22, 20, 16, 14]]
    n, C, G = 24, 3, 8
    number = lambda i, k: i * G + k + 1
    parts = [{"id": f"bore-{i + 1}", "y_um": [round(v - 2.2 - number(i, k) / n, 6) for k, v in enumerate(row)],
              "cell": list(range(G)), "noise_var": [round(2 ** 2 + 1 / 12, 9)] * G} for i, row in enumerate(typed)]
    shared = [{"sd_um": 5, "coefficients": [[1] * G for _ in range(C)]}]
    shared += [{"sd_um": 1 / math.sqrt(n),
                "coefficients": [[int(number(i, k) >= j) - number(i, k) / n for k in range(G)] for i in range(C)]}
               for j in range(1, n + 1)]
    heights = [0.0, (50 - 12) / 83, 1.0, (118 - 12) / 83]
    return {"note": "Invented: the demo engine Curlew 3.", "parts": parts, "heights": heights,
            "reference": [False, False, False, True], "angles_deg": [0, 90], "shared": shared, "tolerance_um": 20,
            "as_made_mean_um": 10, "before": "no", "limits": limits_of(4, 2, [True, True, True, False], 100, 50, 100)}


def main():
    os.makedirs(HERE, exist_ok=True)
    cases = {"trial": trial(), "demo": demo(), "large": large(), "small": small()}
    cases["small_no_tolerance"] = {**cases["small"], "tolerance_um": None}
    for name, data in cases.items():
        with open(os.path.join(HERE, name + ".json"), "w", encoding="utf-8") as file:
            file.write("{\n" + ",\n".join(f"  {json.dumps(k)}: {json.dumps(v)}" for k, v in data.items()) + "\n}\n")


if __name__ == "__main__":
    main()
