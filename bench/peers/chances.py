"""Chance that the largest of some linear forms of one part's sizes keeps its bound, over a mixture of Gaussians (1.5)."""
import math
from statistics import NormalDist

import numpy as np

_inverse = np.frompyfunc(NormalDist().inv_cdf, 1, 1)


def normal_cdf(x):
    """Phi by math.erfc, exact to double rounding."""
    scaled = (np.asarray(x, float) * -math.sqrt(0.5)).ravel()
    return 0.5 * np.fromiter(map(math.erfc, scaled.tolist()), float, len(scaled)).reshape(np.shape(x))


def by_draws(weights, means, covariances, limits, draws, seed):
    """Plain Monte Carlo. One [chance, standard error] per limit, then one for all limits together."""
    random = np.random.default_rng(seed)
    counts = random.multinomial(draws, weights)
    kept = np.zeros(len(limits) + 1)
    for n, m, S in zip(counts, means, covariances):
        if n == 0:
            continue
        x = m + random.standard_normal((n, len(m))) @ np.linalg.cholesky(S).T
        ok = [(x @ forms.T).max(axis=1) <= bound for forms, bound in limits]
        kept += [*(k.sum() for k in ok), np.logical_and.reduce(ok).sum()]
    p = kept / draws
    return [[v, math.sqrt(v * (1 - v) / draws)] for v in p]


def kronecker_normals(dimension, points, shift):
    """points x dimension normal numbers: fractional parts of n g^-j, g^(d+1) = g + 1, moved by `shift`."""
    g = 2.0
    for _ in range(200):
        g = (1 + g) ** (1 / (dimension + 1))
    steps = np.array([(1 / g) ** (j + 1) % 1 for j in range(dimension)])
    u = (shift + np.arange(1, points + 1)[:, None] * steps) % 1.0
    return _inverse(np.clip(u, 1e-16, 1 - 1e-16)).astype(float)


def _one_line(m, L, forms, bound, z):
    """Mean over the points of Phi(t2) - Phi(t1) along the line of the constraint with the smallest margin."""
    d = len(m)
    T = forms @ L
    margin = bound - forms @ m
    norm = np.sqrt((T ** 2).sum(axis=1))
    v = T[np.argmin(margin / norm)]
    v = v / np.linalg.norm(v)
    # Householder: an orthogonal matrix whose first column is v (up to its sign); the others span the rest.
    h = v.copy()
    h[0] += math.copysign(1.0, v[0])
    basis = np.eye(d) - 2 * np.outer(h, h) / (h @ h)
    room = margin[:, None] - (T @ basis[:, 1:]) @ z.T  # what is left for t, per form and point
    slope = T @ v
    t2 = np.full(len(z), np.inf)
    t1 = np.full(len(z), -np.inf)
    for s, r in zip(slope, room):
        if s > 1e-12:
            t2 = np.minimum(t2, r / s)
        elif s < -1e-12:
            t1 = np.maximum(t1, r / s)
        else:
            t1 = np.where(r < 0, np.inf, t1)
    p = np.where(t1 < t2, normal_cdf(t2) - normal_cdf(t1), 0.0)
    return np.maximum(p, 0.0).mean()


def by_lines(weights, means, covariances, limits, points, shifts, seed):
    """As by_draws, by line integration over shifted Kronecker points; the error is that between the shifts."""
    random = np.random.default_rng(seed)
    d = len(means[0])
    stacked = np.vstack([f for f, _ in limits])
    bounds = np.concatenate([np.full(len(f), b) for f, b in limits])
    roots = [np.linalg.cholesky(S) for S in covariances]
    found = np.zeros((shifts, len(limits) + 1))
    for k in range(shifts):
        z = kronecker_normals(d - 1, points, random.random(d - 1))
        for w, m, L in zip(weights, means, roots):
            for j, (forms, bound) in enumerate(limits):
                found[k, j] += w * _one_line(m, L, forms, bound, z)
            found[k, -1] += w * _one_line(m, L, stacked, bounds, z)
    error = found.std(axis=0, ddof=1) / math.sqrt(shifts) if shifts > 1 else np.full(len(limits) + 1, math.nan)
    return [[float(p), float(e)] for p, e in zip(found.mean(axis=0), error)]
