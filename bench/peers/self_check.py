#!/usr/bin/python3
"""Checks of the peer against formulas that share nothing with it but the text of shape-model.md. Ends with 1 at a miss."""
import math
import os
import sys

import numpy as np

import chances
from batched_way import Batch
from brute_way import Posterior, cell_prior
from make_case import limits_of
from shape_case import Case, kernel, node_weights, pass1_nodes, pass2_nodes, read_case, root_profile
from shape_model import Fit

HERE = os.path.dirname(os.path.abspath(__file__))
missed = []


def hold(what, difference, most):
    good = bool(difference <= most)
    print(f"{'holds ' if good else 'MISSED'} {what}: {difference:.3g} (at most {most:.3g})")
    if not good:
        missed.append(what)


def case_of(name):
    return read_case(os.path.join(HERE, "cases", name + ".json"))


def log_normal(x, variance):
    return -0.5 * (x * x / variance + math.log(2 * math.pi * variance))


def one_reading_after_another(case, node, f):
    """Log marginal likelihood and posterior of cells and sources by scalar updates, no factorisation."""
    m, K = cell_prior(case, node, f)
    n, S = len(m), len(case.shared_sd)
    mean = np.concatenate([m, np.zeros(S)])
    P = np.zeros((n + S, n + S))
    P[:n, :n], P[n:, n:] = K, np.diag(case.shared_sd ** 2)
    total = 0.0
    for y, v, i, c, row in zip(case.y, case.noise, case.part, case.cell, case.shared):
        x = np.zeros(n + S)
        x[i * case.G + c], x[n:] = 1.0, row
        Px = P @ x
        s = x @ Px + v
        d = y - x @ mean
        total += log_normal(d, s)
        mean = mean + Px * (d / s)
        P = P - np.outer(Px, Px) / s
    return total, mean[:n], P[:n, :n], mean[n:]


def check_updates():
    for name in ("small", "demo"):
        case = case_of(name)
        f = Fit(case, "batched").f_hat
        worst = [0.0] * 4
        for node in pass2_nodes(case)[::23]:
            a, b = Posterior(case, node, f), one_reading_after_another(case, node, f)
            for k, d in enumerate((a.log_ml - b[0], a.mean - b[1], a.covariance() - b[2], a.shared - b[3])):
                worst[k] = max(worst[k], np.abs(d).max())
        for label, w in zip(("log likelihood", "means", "covariances", "sources"), worst):
            hold(f"{name}: {label} against reading-by-reading updates", w, 1e-8)


def check_rotation():
    """1.4, same stations and one setting for all: rotated into mean and contrasts; two small determinants."""
    case = case_of("trial")
    f = Fit(case, "batched").f_hat
    worst = 0.0
    Y = case.y.reshape(case.C, case.G)
    v, s2 = case.noise[0], case.shared_sd[0] ** 2
    for node in pass2_nodes(case)[::7]:
        m, K = cell_prior(case, node, f)
        m, G, C = m[:case.G], case.G, case.C
        common = K[:G, G:2 * G]
        A = K[:G, :G] - common + v * np.eye(G)
        M = A + C * common + C * s2
        total = -0.5 * Y.size * math.log(2 * math.pi)
        d = math.sqrt(C) * (Y.mean(axis=0) - m)
        total -= 0.5 * (np.linalg.slogdet(M)[1] + d @ np.linalg.inv(M) @ d)
        rest = Y - Y.mean(axis=0)
        total -= 0.5 * ((C - 1) * np.linalg.slogdet(A)[1] + np.trace(rest @ np.linalg.inv(A) @ rest.T))
        worst = max(worst, abs(total - Posterior(case, node, f).log_ml))
    hold("trial: log likelihood against mean and contrasts", worst, 1e-8)


def check_ways():
    for name in ("small", "small_no_tolerance", "trial", "demo"):
        case = case_of(name)
        a, b = Fit(case, "brute"), Fit(case, "batched")
        hold(f"{name}: log likelihoods brute - batched", np.abs(a.log_ml - b.log_ml).max(), 1e-9)
        hold(f"{name}: profile", np.abs(a.f_hat - b.f_hat).max(), 1e-11)
        for k, label in ((0, "means"), (1, "covariances")):
            hold(f"{name}: {label}", max(np.abs(p[k] - q[k]).max() for p, q in zip(a.parts, b.parts)), 1e-9)
    case = case_of("small")
    nodes = pass1_nodes(case) + pass2_nodes(case)
    hold("nodes 64 + 588", abs(len(nodes) - 652), 0)
    hold("prior of the loose branch", abs(sum(n.prior for n in nodes if n.loose) - 1.0), 1e-12)


def check_profile():
    """1.3 by hand: loops over nodes, parts, heights and directions, posterior means by scalar updates."""
    case = case_of("small")
    H, D = case.H, case.D
    found = []
    for node in pass1_nodes(case):
        f = [math.exp(-h / node.lam) if counted else 0.0 for h, counted in zip(case.heights, case.counted)]
        f = np.array([max(v, 0.06) if counted else 0.0 for v, counted in zip(f, case.counted)])
        log_ml, cells, _, _ = one_reading_after_another(case, node, f)
        found.append((math.log(node.prior) + log_ml, cells, Posterior(case, node, f).a))
    top = max(f[0] for f in found)
    weight = [math.exp(f[0] - top) for f in found]
    weight = [w if w >= 2e-3 * sum(weight) else 0.0 for w in weight]
    a = sum(w * f[2] for w, f in zip(weight, found)) / sum(weight)
    u = []
    for h in range(H):
        level = [sum(w * f[1][i * H * D + h * D + t] for w, f in zip(weight, found)) / sum(weight)
                 for i in range(case.C) for t in range(D)]
        u.append(max(0.0, sum(level) / len(level) - a) + 6 * math.exp(-case.heights[h] / 0.4) if case.counted[h] else 0.0)
    mine = [max(v, 0.06 * max(u)) / max(u) if counted else 0.0 for v, counted in zip(u, case.counted)]
    hold("small: learned profile by hand", np.abs(np.array(mine) - Fit(case, "brute").f_hat).max(), 1e-10)


def check_slopes():
    """Mixture mean of what a reading shows = y + noise d log p(y) / dy, by central differences."""
    case = case_of("small")
    fit = Fit(case, "batched")
    nodes, profiles = fit.nodes, [fit.f_hat] * len(fit.nodes)

    def log_p():
        return np.logaddexp.reduce(np.log([n.prior for n in nodes]) + Batch(case, nodes, profiles).log_ml)

    two = Batch(case, nodes, profiles)
    w = node_weights(nodes, two.log_ml, 0.0)
    everything = np.arange(len(nodes))
    cells = [w @ two.part(i, everything, False)[0] for i in range(case.C)]
    sources = w @ two.shared
    for k in (0, 4, 9, 13):
        step, y = 1e-3, case.y[k]
        case.y[k] = y + step
        up = log_p()
        case.y[k] = y - step
        down = log_p()
        case.y[k] = y
        shown = cells[case.part[k]][case.cell[k]] + case.shared[k] @ sources
        hold(f"small: reading {k} against the slope of the likelihood",
             abs(y + case.noise[k] * (up - down) / (2 * step) - shown), 1e-6)


def tiny_case():
    return Case({"parts": [{"id": "p", "y_um": [28.0, 17.0, 12.0], "cell": [0, 1, 5], "noise_var": [30.0] * 3},
                           {"id": "q", "y_um": [33.0, 8.0], "cell": [0, 7], "noise_var": [30.0] * 2}],
                 "heights": [0.0, 1.0, 1.2], "reference": [False, False, True], "angles_deg": [0, 45, 90],
                 "shared": [{"sd_um": 5, "coefficients": [[1, 1, 1], [1, 1]]}], "tolerance_um": 20, "as_made_mean_um": 10,
                 "before": "no", "limits": limits_of(3, 3, [True, True, False], 35, 12, 30)})


def generate(case, node, f, n, random):
    """n engines drawn term by term from 1.1: functions of height times random numbers, no covariance of sizes."""
    h, H, C = case.heights, case.H, case.C
    g = root_profile(case, f)
    draw = lambda *shape: random.standard_normal((n, *shape))
    smooth = lambda length, *shape: draw(*shape, H) @ np.linalg.cholesky(kernel(h, length) + 1e-12 * np.eye(H)).T
    s_o, w, rho, r, kappa = node.o * node.w / 2, node.w, node.rho, node.r, node.kappa
    ripple = lambda *shape: math.sqrt(1 - rho / 2) * f * draw(*shape, 1) + math.sqrt(rho / 2) * case.counted * smooth(0.5, *shape)
    a = case.mean_a + case.a_sd(node) * draw(1, 1)
    R = w * f + 0.5 * w * f * draw(1, 1) + rho * w * g * smooth(0.35, 1)
    V = 0.4 * s_o * f + math.sqrt(0.25) * s_o * ripple(1) + node.even * draw(1, 1)
    fading = np.exp(-np.maximum(h - case.h_top, 0.0) / 0.4)
    apart = lambda: 0.5 * r * smooth(0.4, C) + node.even * draw(C, 1) + node.clamped * fading * smooth(0.4, C)
    Ri = kappa * w * (f * draw(C, 1) + rho * g * smooth(0.35, C)) + r * smooth(0.4, C)
    Vi = math.sqrt(0.25) * s_o * ripple(C) + apart()
    Qi = math.sqrt(0.3) * (math.sqrt(0.25) * s_o * ripple(C) + apart())
    level = (a + case.own_sd * draw(C, 1) + R + Ri)[..., None]
    size = level + (V + Vi)[..., None] * np.cos(2 * case.theta) + Qi[..., None] * np.sin(2 * case.theta)
    return a[:, 0, 0], (size + node.e_sd * draw(C, H, case.D)).reshape(n, -1)


def check_prior(n=150000):
    """Means and covariances of engines drawn term by term against the covariance that brute_way.py writes down."""
    case, random = case_of("small"), np.random.default_rng(8)
    f = np.array([1.0, 0.5, 0.1, 0.0])
    wanted = [(3, 0.02, 1, 0.06), (3, 0.5, 12, 0.06), (120, 0.5, 1, 0.3), (120, 0.02, 5, 0.3), (30, 0.5, 2, 0.3)]
    for node in pass2_nodes(case):
        if node.loose or (node.w, node.o, node.r, node.rho) not in wanted or node.kappa != 0.15:
            continue
        m, K = cell_prior(case, node, f)
        _, x = generate(case, node, f, n, random)
        d = x - m
        spread = np.sqrt((np.outer(np.diag(K), np.diag(K)) + K ** 2) / n)
        label = f"prior at w {node.w:g}, o {node.o:g}, r {node.r:g}, rho {node.rho:g}, in standard errors: "
        hold(label + "covariance", (np.abs(d.T @ d / n - K) / spread).max(), 5)
        hold(label + "mean", (np.abs(d.mean(axis=0)) / np.sqrt(np.diag(K) / n)).max(), 5)


def check_engines(per_node=150000):
    """The whole of pass 2 with a given profile, against weighing drawn engines by their readings."""
    case, random = tiny_case(), np.random.default_rng(7)
    f = np.array([1.0, 0.35, 0.0])
    nodes = pass2_nodes(case)[60::41] + pass2_nodes(case)[61::41]
    batch = Batch(case, nodes, [f] * len(nodes))
    total = sum(n.prior for n in nodes)
    at = case.part * case.G + case.cell
    sums = []
    for g, node in enumerate(nodes):
        a, x = generate(case, node, f, per_node, random)
        d = case.y - x[:, at]
        one = np.ones(len(d[0])) / case.noise
        s2 = case.shared_sd[0] ** 2  # the setting error is integrated out by hand: one number common to all readings
        q = (d * d / case.noise).sum(axis=1) - (d @ one) ** 2 / (1 / s2 + one.sum())
        log_c = -0.5 * (np.log(2 * np.pi * case.noise).sum() + math.log(1 + s2 * one.sum()))
        like = np.exp(log_c - 0.5 * q)
        relative = like.std() / like.mean() / math.sqrt(per_node)
        hold(f"tiny: node {g} likelihood ({relative:.1%} error)", abs(math.log(like.mean()) - batch.log_ml[g]), 5 * relative)
        ok = [(x[:, :case.G] @ forms.T).max(axis=1) <= bound for forms, bound in case.limits]
        kept = [*ok, np.logical_and.reduce(ok)]
        sums.append([node.prior / total * np.concatenate(
            [[p.sum()], [p.sum() * node.loose], [p @ a[b]], p @ x[b], [p[k[b]].sum() for k in kept]])
            for b in np.array_split(np.arange(per_node), 20) for p in [like[b]]])
    blocks = np.sum(sums, axis=0)
    mean = blocks.sum(axis=0) / blocks.sum(axis=0)[0]
    error = (blocks[:, 1:] / blocks[:, :1]).std(axis=0, ddof=1) / math.sqrt(20)
    w = node_weights(nodes, batch.log_ml, 0.0)
    everything = np.arange(len(nodes))
    cells = np.concatenate([w @ batch.part(i, everything)[0] for i in range(case.C)])
    chance = chances.by_lines(w, *batch.part(0, everything), case.limits, 2048, 8, 3)
    mine = np.concatenate([[sum(v for v, n in zip(w, nodes) if n.loose)], [w @ batch.a], cells, [c[0] for c in chance]])
    off = np.abs(mean[1:] - mine) / error
    for label, part in (("loose", off[:1]), ("a", off[1:2]), ("means of cells", off[2:-4]), ("chances", off[-4:])):
        hold(f"tiny: {label} against weighed engines, in standard errors", part.max(), 4.5)
    print("       chances", np.round(mine[-4:], 4), "drawn", np.round(mean[-4:], 4), "error", np.round(error[-4:], 4))


def check_chances():
    case = case_of("small")
    fit = Fit(case, "batched")
    for i, (means, covariances) in enumerate(fit.parts):
        form = np.zeros((1, case.G))
        form[0, 0], form[0, 5] = 1, -1
        bound = 1.0 + fit.w @ means @ form[0]  # near the middle, so that the chance is neither 0 nor 1
        exact = sum(w * 0.5 * math.erfc(-(bound - form[0] @ m) / math.sqrt(2 * form[0] @ S @ form[0]))
                    for w, m, S in zip(fit.w, means, covariances))
        found = chances.by_lines(fit.w, means, covariances, [(form, bound)], 16, 2, 1)[0][0]
        hold(f"small: part {i}, one form against Phi", abs(found - exact), 1e-12)
        lines = chances.by_lines(fit.w, means, covariances, case.limits, 2048, 8, 1)
        drawn = chances.by_draws(fit.w, means, covariances, case.limits, 400000, 2)
        for j, (p, q) in enumerate(zip(lines, drawn)):
            hold(f"small: part {i}, limit {j}, lines against draws, in standard errors",
                 abs(p[0] - q[0]) / math.hypot(p[1], q[1], 1e-6), 4.5)


def main():
    check_updates()
    check_rotation()
    check_ways()
    check_profile()
    check_slopes()
    check_chances()
    check_prior()
    check_engines()
    print(f"{len(missed)} missed")
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
