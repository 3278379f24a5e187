"""The structured way of shape-model.md 1.4, all nodes at once: own blocks of each part, shared terms beside them.

The shared terms are written z = mu + B zeta with zeta standard normal, because the prior of R has no inverse: R is
exactly 0 at reference stations, and close heights make its kernel nearly singular. Then S = 1 + sum (M B)' A^-1 (M B).
Both as-made branches of a node share A, and parts with the same cells and noise share A.
"""
import numpy as np

from shape_case import clamping_kernel, kernel, oval_kernel, root_profile


def _root(K):
    """K = X X' for a covariance that may be singular."""
    values, vectors = np.linalg.eigh(K)
    return vectors * np.sqrt(np.maximum(values, 0.0))


class Batch:
    """Posterior of many nodes. `nodes` in any order; `profiles` nodes x heights."""

    def __init__(self, case, nodes, profiles):
        self.case, self.nodes = case, nodes
        keys = [(n.w, n.kappa, n.o, n.rho, n.r, n.e_sd, n.even, n.clamped, n.lam) for n in nodes]
        first = {}
        for g, key in enumerate(keys):
            first.setdefault(key, g)
        at = list(first.values())
        rank = {key: u for u, key in enumerate(first)}
        self.u_of = np.array([rank[key] for key in keys])  # which scale set a node has
        self._scales([nodes[g] for g in at], np.asarray(profiles)[at])
        self._gather()
        self._solve()

    def _scales(self, nodes, f):
        case, H, D = self.case, self.case.H, self.case.D
        w, kappa, o, rho, r, e, even, clamped = (np.array([getattr(n, k) for n in nodes])
                                  for k in ("w", "kappa", "o", "rho", "r", "e_sd", "even", "clamped"))
        s_o = o * w / 2
        root = np.stack([root_profile(case, row) for row in f])
        U = len(nodes)
        F = f[:, :, None] * f[:, None, :]
        K35, K4 = (kernel(case.heights, length) for length in (0.35, 0.4))
        K5 = oval_kernel(case)
        GK = root[:, :, None] * root[:, None, :] * K35
        col = lambda x: x[:, None, None]
        Ri = col((kappa * w) ** 2) * F + col((kappa * rho * w) ** 2) * GK + col(r ** 2) * K4
        Vi = (col(0.25 * s_o ** 2) * (col(1 - rho / 2) * F + col(rho / 2) * K5) + col(r ** 2) * 0.25 * K4 + col(even ** 2)
              + col(clamped ** 2) * clamping_kernel(case))
        # Parts x directions: cov[(h,t),(k,s)] = Ri[h,k] + Vi[h,k] cos cos + Qi[h,k] sin sin + own_sd^2 + e on the diagonal
        cc, ss = np.outer(case.cos2, case.cos2), np.outer(case.sin2, case.sin2)
        if case.has_q:
            cc = cc + 0.3 * ss
        own = Ri[:, :, None, :, None] + Vi[:, :, None, :, None] * cc[:, None, :] + case.own_sd ** 2
        self.own = own.reshape(U, case.G, case.G)
        diagonal = np.arange(case.G)
        self.own[:, diagonal, diagonal] += (e ** 2)[:, None]
        self.mean = (case.mean_a + (w[:, None] * f)[:, :, None]
                     + (0.4 * s_o[:, None] * f)[:, :, None] * case.cos2).reshape(U, case.G)
        # Columns of T B: a (unit sd here, scaled per branch), R in H + 1 factors, V in H + 1 factors.
        R = np.concatenate([(0.5 * w[:, None] * f)[:, :, None],
                            col(rho * w) * root[:, :, None] * _root(K35)], axis=2)
        V = col(np.sqrt(0.25) * s_o) * np.concatenate([np.sqrt(1 - rho / 2)[:, None, None] * f[:, :, None],
                                                       np.sqrt(rho / 2)[:, None, None] * (case.counted[:, None] * _root(kernel(case.heights, 0.5)))], axis=2)
        V = np.concatenate([V, np.broadcast_to(col(even), (U, H, 1))], axis=2)
        self.TB = np.concatenate([np.ones((U, case.G, 1)), np.repeat(R, D, axis=1),
                                  np.repeat(V, D, axis=1) * np.tile(case.cos2, H)[:, None]], axis=2)

    def _gather(self):
        case, U = self.case, len(self.mean)
        k = self.TB.shape[2]
        self.k, S = k, case.shared.shape[1]
        P, b = np.zeros((U, k + S, k + S)), np.zeros((U, k + S))
        quad, log_det = np.zeros(U), np.zeros(U)
        blocks, self.block_of, self.design, self.residual = {}, [], [], []
        for i, rows in enumerate(case.obs):
            cells = case.cell[rows]
            key = (tuple(cells), tuple(case.noise[rows]))
            if key not in blocks:
                A = self.own[:, cells[:, None], cells[None, :]] + np.diag(case.noise[rows])
                L = np.linalg.cholesky(A)
                half = np.linalg.inv(L)
                blocks[key] = (half, 2 * np.log(np.diagonal(L, axis1=1, axis2=2)).sum(axis=1))
            half, log_A = blocks[key]
            shared = np.broadcast_to(case.shared[rows] * case.shared_sd, (U, len(rows), S))
            M = np.concatenate([self.TB[:, cells, :], shared], axis=2)
            d = case.y[rows] - self.mean[:, cells]
            HM, Hd = half @ M, (half @ d[:, :, None])[:, :, 0]
            P += HM.transpose(0, 2, 1) @ HM
            b += np.einsum("unk,un->uk", HM, Hd)
            quad += (Hd ** 2).sum(axis=1)
            log_det += log_A
            self.block_of.append(half)
            self.design.append(HM)
            self.residual.append(Hd)
        self.P, self.b, self.quad, self.log_det = P, b, quad, log_det

    def _solve(self):
        case, u = self.case, self.u_of
        N = len(self.nodes)
        self.scale = np.ones((N, self.P.shape[1]))
        self.scale[:, 0] = [case.a_sd(n) for n in self.nodes]
        S = self.P[u] * self.scale[:, :, None] * self.scale[:, None, :] + np.eye(self.P.shape[1])
        b = self.b[u] * self.scale
        L = np.linalg.cholesky(S)
        self.S_half = np.linalg.inv(L)  # S^-1 = S_half' S_half
        t = (self.S_half @ b[:, :, None])[:, :, 0]
        self.zeta = (self.S_half.transpose(0, 2, 1) @ t[:, :, None])[:, :, 0]
        log_S = 2 * np.log(np.diagonal(L, axis1=1, axis2=2)).sum(axis=1)
        self.log_ml = (-0.5 * (self.quad[u] - (t ** 2).sum(axis=1)) - 0.5 * (self.log_det[u] + log_S)
                       - 0.5 * len(case.y) * np.log(2 * np.pi))
        self.a = case.mean_a + self.scale[:, 0] * self.zeta[:, 0]
        self.shared = case.shared_sd * self.zeta[:, self.k:]
        variance = (self.S_half ** 2).sum(axis=1) * self.scale ** 2
        self.a_var = variance[:, 0]
        self.shared_var = case.shared_sd ** 2 * variance[:, self.k:]

    def part(self, i, which, with_covariance=True):
        """Mean (nodes x cells) and covariance of part i at the nodes `which`."""
        case, u = self.case, self.u_of[which]
        cells = case.cell[case.obs[i]]
        HK = self.block_of[i][u] @ self.own[u][:, cells, :]  # half A^-1 times Cov(rows, cells)
        z = self.zeta[which] * self.scale[which]
        direct = np.concatenate([self.TB[u], np.zeros((len(u), case.G, case.shared.shape[1]))], axis=2)
        left = self.residual[i][u] - np.einsum("unk,uk->un", self.design[i][u], z)
        mean = self.mean[u] + np.einsum("ugk,uk->ug", direct, z) + np.einsum("ung,un->ug", HK, left)
        if not with_covariance:
            return mean, None
        W = (direct - HK.transpose(0, 2, 1) @ self.design[i][u]) * self.scale[which][:, None, :]
        X = W @ self.S_half[which].transpose(0, 2, 1)
        return mean, self.own[u] - HK.transpose(0, 2, 1) @ HK + X @ X.transpose(0, 2, 1)
