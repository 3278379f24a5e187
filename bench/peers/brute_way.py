"""The exact way: one full covariance over all readings per node, one Cholesky. Slow, plain, meant to be right."""
import numpy as np

from shape_case import clamping_kernel, kernel, oval_kernel, root_profile


def cell_prior(case, node, f):
    """Mean (parts*cells) and covariance of every true size, written down from shape-model.md 1.1."""
    h, H, D, C = case.heights, case.H, case.D, case.C
    s_o = node.o * node.w / 2
    F = np.outer(f, f)
    G = np.outer(root_profile(case, f), root_profile(case, f))
    B = (1 - node.rho / 2) * F + node.rho / 2 * oval_kernel(case)
    cov_R = (0.5 * node.w) ** 2 * F + (node.rho * node.w) ** 2 * G * kernel(h, 0.35)
    cov_Ri = ((node.kappa * node.w) ** 2 * F + (node.kappa * node.rho * node.w) ** 2 * G * kernel(h, 0.35)
              + node.r ** 2 * kernel(h, 0.4))
    cov_V = 0.25 * s_o ** 2 * B + node.even ** 2
    cov_Vi = (0.25 * s_o ** 2 * B + node.r ** 2 * 0.25 * kernel(h, 0.4) + node.even ** 2
              + node.clamped ** 2 * clamping_kernel(case))
    cov_Qi = 0.3 * cov_Vi if case.has_q else np.zeros((H, H))
    cc, ss, one = np.outer(case.cos2, case.cos2), np.outer(case.sin2, case.sin2), np.ones((D, D))
    common = case.a_sd(node) ** 2 + np.kron(cov_R, one) + np.kron(cov_V, cc)
    own = (case.own_sd ** 2 + np.kron(cov_Ri, one) + np.kron(cov_Vi, cc) + np.kron(cov_Qi, ss)
           + node.e_sd ** 2 * np.eye(H * D))
    mean = case.mean_a + np.kron(node.w * f, np.ones(D)) + np.kron(0.4 * s_o * f, case.cos2)
    return np.tile(mean, C), np.kron(np.ones((C, C)), common) + np.kron(np.eye(C), own)


class Posterior:
    """Of one node: log marginal likelihood, every cell (mean, covariance), a and the shared sources."""

    def __init__(self, case, node, f):
        m, K = cell_prior(case, node, f)
        at = case.part * case.G + case.cell
        V = K[np.ix_(at, at)] + (case.shared * case.shared_sd ** 2) @ case.shared.T + np.diag(case.noise)
        L = np.linalg.cholesky(V)
        d = case.y - m[at]
        z = np.linalg.solve(L, d)
        self.log_ml = -0.5 * (z @ z) - np.log(np.diag(L)).sum() - 0.5 * len(d) * np.log(2 * np.pi)
        x = np.linalg.solve(L.T, z)
        self._L, self._K_rows, self._K = L, K[:, at], K
        self.mean = m + K[:, at] @ x
        a_var = case.a_sd(node) ** 2
        self.a = case.mean_a + a_var * x.sum()
        self.shared = case.shared_sd ** 2 * (case.shared.T @ x)
        ones = np.linalg.solve(L, np.ones(len(d)))
        self.a_var = a_var - a_var ** 2 * (ones @ ones)
        coefficients = np.linalg.solve(L, case.shared * case.shared_sd ** 2)
        self.shared_var = case.shared_sd ** 2 - (coefficients ** 2).sum(axis=0)

    def covariance(self):
        A = np.linalg.solve(self._L, self._K_rows.T)
        return self._K - A.T @ A


def posteriors(case, nodes, profiles):
    return [Posterior(case, n, f) for n, f in zip(nodes, profiles)]
