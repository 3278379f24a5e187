"""One case: what was read, and the nodes that are integrated over. Sizes in um relative to the standard size, wear positive.

Shared by both ways of the NumPy peer (brute_way.py, batched_way.py); nothing here is taken from the C++ code.
"""
import json
from dataclasses import dataclass

import numpy as np

W = (3.0, 12.0, 30.0, 60.0, 120.0)


@dataclass
class Node:
    """One point of the grid: the scales given which everything is Gaussian (shape-model.md 1.2)."""
    w: float
    kappa: float
    o: float
    rho: float
    r: float
    loose: bool
    lam: float  # 0 in pass 2
    e_sd: float
    even: float  # sd of an amplitude of ovality that is even along the length
    clamped: float  # and of one that fades from the first counted station
    prior: float


class Case:
    """Input of one judgement. `obs[i]` are the row numbers of part i in the stacked readings."""

    def __init__(self, data):
        self.data = data
        self.ids = [p["id"] for p in data["parts"]]
        self.heights = np.array(data["heights"], float)
        self.counted = ~np.array(data["reference"], bool)
        self.theta = np.radians(np.array(data["angles_deg"], float))  # 0 = thrust
        self.H, self.D, self.C = len(self.heights), len(self.theta), len(self.ids)
        self.G = self.H * self.D  # cells of one part
        self.y = np.array([y for p in data["parts"] for y in p["y_um"]], float)
        self.noise = np.array([v for p in data["parts"] for v in p["noise_var"]], float)
        self.part = np.array([i for i, p in enumerate(data["parts"]) for _ in p["y_um"]], int)
        self.cell = np.array([c for p in data["parts"] for c in p["cell"]], int)
        self.obs = [np.flatnonzero(self.part == i) for i in range(self.C)]
        self.shared_sd = np.array([s["sd_um"] for s in data["shared"]], float)
        self.shared = np.zeros((len(self.y), len(data["shared"])))  # coefficient of source s in row k
        for s, source in enumerate(data["shared"]):
            self.shared[:, s] = [c for row in source["coefficients"] for c in row]
        tolerance = data["tolerance_um"]
        self.mean_a = float(data["as_made_mean_um"])
        self.tight_sd = None if tolerance is None else 0.20 * tolerance
        self.own_sd = 0.17 * (20.0 if tolerance is None else tolerance)  # not known: as for 20 um (left open by 1.1)
        self.p_loose = 1.0 if tolerance is None else {"no": 0.15, "unknown": 0.5}[data["before"]]
        self.has_q = len({int(c) % self.D for c in self.cell}) >= 3
        # An angle that is a whole number of eighths gets its exact cosine, so that a pin axis is -1 and its sine 0.
        self.cos2 = np.round(np.cos(2 * self.theta), 15)
        self.sin2 = np.round(np.sin(2 * self.theta), 15)
        self.h_top = self.heights[self.counted][0]
        self.limits = [(np.array(l["forms"], float), float(l["bound_um"])) for l in data["limits"]]

    def a_sd(self, node):
        return 50.0 if node.loose else self.tight_sd


def read_case(path):
    with open(path, encoding="utf-8") as file:
        return Case(json.load(file))


def _branches(case):
    out = [] if case.tight_sd is None else [(False, 1.0 - case.p_loose)]
    return out + [(True, case.p_loose)]


def _spread(case, scales):
    """Every scale set with both as-made branches; the prior is that of the sets within each branch."""
    total = sum(weight for _, weight in scales)
    return [Node(**s, loose=loose, prior=p * weight / total) for s, weight in scales for loose, p in _branches(case)]


def pass1_nodes(case):
    """64 nodes (32 without a tolerance), in the order w, lambda, rho, r, branch; the last turns fastest."""
    return _spread(case, [(dict(w=w, kappa=0.3, o=0.3, rho=rho, r=r, lam=lam, e_sd=2.0, even=0.7 * r, clamped=0.0), 1.0)
                          for w in W for lam in (0.25, 0.6) for rho in (0.08, 0.45) for r in (3.0, 10.0)
                          if w >= 20 or rho == 0.08])


# What has nothing to do with wear: sd of smooth departures r, sd of texture e, sd of even and of clamped ovality, prior weight.
DEPARTURES = ((1.0, 2.0, 1.0, 0.0, 0.18), (1.0, 2.0, 4.0, 0.0, 0.18), (1.0, 2.0, 12.0, 0.0, 0.12), (1.0, 2.0, 1.0, 8.0, 0.07),
              (5.0, 2.0, 1.0, 0.0, 0.10), (12.0, 4.9, 8.5, 0.0, 0.05), (2.0, 12.0, 2.0, 0.0, 0.30))


def pass2_nodes(case):
    """588 nodes (294 without a tolerance), in the order w, kappa, o, rho, departures, branch; the last turns fastest."""
    return _spread(case, [(dict(w=w, kappa=kappa, o=o, rho=rho, r=r, lam=0.0, e_sd=e, even=even, clamped=clamped), weight)
                          for w in W for kappa in (0.15, 0.6) for o in (0.02, 0.15, 0.5)
                          for rho in (0.06, 0.3) for r, e, even, clamped, weight in DEPARTURES
                          if w >= 20 or (rho == 0.06 and kappa != 0.6)])


def _floored(case, f):
    """Counted stations: not under 6 % of the largest, largest 1. Reference stations: 0."""
    f = np.where(case.counted, f, 0.0)
    f = np.where(case.counted, np.maximum(f, 0.06 * f.max()), 0.0)
    return f / f.max()


def textbook_profile(case, lam):
    return _floored(case, np.exp(-(case.heights - case.h_top) / lam))


def learned_profile(case, cell_means, mean_a):
    """1.3: from the posterior means of every cell (parts x cells, um) and of a."""
    u = np.maximum(0.0, cell_means.reshape(case.C, case.H, case.D).mean(axis=(0, 2)) - mean_a)
    return _floored(case, u + 6.0 * np.exp(-(case.heights - case.h_top) / 0.4))


def root_profile(case, f):
    """sqrt f as it stands in G: f not under 0.15 at counted stations, 0 at reference stations."""
    return np.where(case.counted, np.sqrt(np.maximum(f, 0.15)), 0.0)


def kernel(heights, length):
    """Squared-exponential, exp(-(h - h')^2 / (2 length^2))."""
    d = heights[:, None] - heights[None, :]
    return np.exp(-0.5 * (d / length) ** 2)


def oval_kernel(case):
    """K_.5 of the ovality that leaves its profile; a reference station does not wear, so it has none."""
    return kernel(case.heights, 0.5) * np.outer(case.counted, case.counted)


def clamping_kernel(case):
    """Ovality of clamping, unit at the first counted station: K_.4 that fades as exp(-h/0.4) below it."""
    fading = np.exp(-np.maximum(case.heights - case.h_top, 0.0) / 0.4)
    return np.outer(fading, fading) * kernel(case.heights, 0.4)


def node_weights(nodes, log_ml, drop=2e-3):
    """prior x likelihood, normalised; those under `drop` become 0 and the rest is normalised again."""
    logs = np.log([n.prior for n in nodes]) + log_ml
    w = np.exp(logs - logs.max())
    w /= w.sum()
    w[w < drop] = 0.0
    return w / w.sum()
