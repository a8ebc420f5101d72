"""Probabilities of offset normals in circles by quadrature, case by case. Needs numpy, scipy."""
import numpy as np
from scipy import integrate, stats
from common import folder, runs, timed

cases = np.fromfile(f"{folder}/discs.f64").reshape(-1, 6)
few = 500


def inside(r, m1, m2, v1, v2, c):
    s2 = v2 - c * c / v1
    cut = np.sqrt(v1)

    def density(x):
        half = np.sqrt(max(r * r - x * x, 0.0))
        at = m2 + c / v1 * (x - m1)
        return np.exp(-0.5 * ((x - m1) / cut) ** 2) / (cut * np.sqrt(2 * np.pi)) * (stats.norm.cdf((half - at) / np.sqrt(s2)) - stats.norm.cdf((-half - at) / np.sqrt(s2)))

    return integrate.quad(density, -r, r, epsabs=1e-12, epsrel=1e-12, limit=200)[0]


timed(f"SciPy quad, {few} cases scaled up", lambda: [inside(*row) for row in cases[:few]], lambda p: dict(first=float(np.sum(p))), runs=min(runs, 3), scale=len(cases) / few)
