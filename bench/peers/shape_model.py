#!/usr/bin/python3
"""NumPy peer of the shape model: an independent check of the C++ code and of its times. See README.md.

    shape_model.py cases/trial.json [--way brute|batched] [--draws N] [--points N] [--shifts N] [--seed N] [--out FILE]
    shape_model.py cases/trial.json --time
"""
import argparse
import json
import sys
import time

import numpy as np

import chances
from batched_way import Batch
from brute_way import posteriors
from shape_case import learned_profile, node_weights, pass1_nodes, pass2_nodes, read_case, textbook_profile


class _BruteNodes:
    """The brute posteriors behind the questions that Batch answers."""

    def __init__(self, case, nodes, profiles):
        self._case = case
        self._nodes = posteriors(case, nodes, profiles)
        self._covariances = {}
        for name in ("log_ml", "a", "a_var", "shared", "shared_var"):
            setattr(self, name, np.array([getattr(n, name) for n in self._nodes]))

    def part(self, i, which, with_covariance=True):
        here = slice(i * self._case.G, (i + 1) * self._case.G)
        mean = np.array([self._nodes[g].mean[here] for g in which])
        if not with_covariance:
            return mean, None
        for g in which:
            if g not in self._covariances:
                self._covariances[g] = self._nodes[g].covariance()
        return mean, np.array([self._covariances[g][here, here] for g in which])


class Fit:
    """Both passes (1.3) and the mixture that comes out of them."""

    def __init__(self, case, way):
        solve = {"brute": _BruteNodes, "batched": Batch}[way]
        self.case = case
        self.nodes1 = pass1_nodes(case)
        one = solve(case, self.nodes1, [textbook_profile(case, n.lam) for n in self.nodes1])
        self.log_ml1 = one.log_ml
        self.weights1 = node_weights(self.nodes1, one.log_ml)
        alive = np.flatnonzero(self.weights1)
        w1 = self.weights1[alive]
        cells = np.concatenate([w1 @ one.part(i, alive, False)[0] for i in range(case.C)])
        self.a1 = float(w1 @ one.a[alive])
        self.f_hat = learned_profile(case, cells, self.a1)
        self.nodes = pass2_nodes(case)
        two = solve(case, self.nodes, [self.f_hat] * len(self.nodes))
        self.log_ml = two.log_ml
        self.weights = node_weights(self.nodes, two.log_ml)
        self.alive = np.flatnonzero(self.weights)
        self.w = self.weights[self.alive]
        self.parts = [two.part(i, self.alive) for i in range(case.C)]
        self.loose = float(sum(self.weights[g] for g in self.alive if self.nodes[g].loose))
        self.a = self._mixed(two.a[self.alive], two.a_var[self.alive])
        self.shared = self._mixed(two.shared[self.alive], two.shared_var[self.alive])

    def _mixed(self, means, variances):
        """Mean and standard deviation of the mixture."""
        mean = self.w @ means
        return mean, np.sqrt(self.w @ (variances + (means - mean) ** 2))

    def cells(self, i):
        means, covariances = self.parts[i]
        return self._mixed(means, np.diagonal(covariances, axis1=1, axis2=2))


def digits(value):
    """12 significant digits all through a nest of numbers."""
    if isinstance(value, dict):
        return {k: digits(v) for k, v in value.items()}
    if isinstance(value, (list, tuple, np.ndarray)):
        return [digits(v) for v in value]
    return float(f"{value:.12g}") if isinstance(value, (float, np.floating)) else value


def result(case, fit, way, draws, points, shifts, seed):
    out = {
        "way": way,
        "pass1": {"log_ml": fit.log_ml1, "weight": fit.weights1, "mean_a_um": fit.a1},
        "f_hat": fit.f_hat,
        "nodes": [[n.w, n.kappa, n.o, n.rho, n.r, int(n.loose), n.e_sd, n.even, n.clamped] for n in fit.nodes],
        "prior": [n.prior for n in fit.nodes],
        "log_ml": fit.log_ml,
        "surviving": [[int(g), fit.weights[g]] for g in fit.alive],
        "loose": fit.loose,
        "a_um": {"mean": fit.a[0], "sd": fit.a[1]},
        "shared_um": [{"mean": m, "sd": s} for m, s in zip(*fit.shared)],
        "parts": [],
    }
    for i, name in enumerate(case.ids):
        mean, sd = fit.cells(i)
        part = {"id": name, "mean_um": mean, "sd_um": sd}
        if case.limits:
            part["chance_line"] = chances.by_lines(fit.w, *fit.parts[i], case.limits, points, shifts, seed + i)
            part["chance_draws"] = chances.by_draws(fit.w, *fit.parts[i], case.limits, draws, seed + i)
        out["parts"].append(part)
    return digits(out)


def seconds(work):
    start = time.perf_counter()
    value = work()
    return time.perf_counter() - start, value


def print_times(case):
    """Best of three per way: fit alone, and with chances of every part by 8192 points shared out over the nodes."""
    for way in ("brute", "batched"):
        runs = [seconds(lambda: Fit(case, way)) for _ in range(3)]
        fit = runs[0][1]
        points = max(64, 8192 // len(fit.w))
        chance = min(seconds(lambda: [chances.by_lines(fit.w, *p, case.limits, points, 1, 1) for p in fit.parts])[0]
                     for _ in range(3))
        print(f"{way}: fit {min(r[0] for r in runs):.3f} s; chances {chance:.3f} s ({len(fit.w)} nodes, {points} points each)")


def main():
    parser = argparse.ArgumentParser(description="NumPy peer of the shape model")
    parser.add_argument("case")
    parser.add_argument("--way", choices=("brute", "batched"), default="brute")
    parser.add_argument("--draws", type=int, default=200000)
    parser.add_argument("--points", type=int, default=4096, help="Kronecker points per node and shift")
    parser.add_argument("--shifts", type=int, default=8)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--out")
    parser.add_argument("--time", action="store_true")
    options = parser.parse_args()
    case = read_case(options.case)
    if options.time:
        return print_times(case)
    found = result(case, Fit(case, options.way), options.way, options.draws, options.points, options.shifts, options.seed)
    text = "{\n" + ",\n".join(f"  {json.dumps(k)}: {json.dumps(v)}" for k, v in found.items()) + "\n}\n"
    if options.out:
        with open(options.out, "w", encoding="utf-8") as file:
            file.write(text)
    else:
        sys.stdout.write(text)
    return None


if __name__ == "__main__":
    main()
