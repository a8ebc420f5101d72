"""Probabilities of offset normals of equal variances in circles: the noncentral chi-squared of whole arrays. Needs numpy, scipy."""
import numpy as np
from scipy import stats
from common import folder, timed

c = np.fromfile(f"{folder}/discs.f64").reshape(-1, 6)
timed("SciPy noncentral chi-squared", lambda: stats.ncx2.cdf(c[:, 0] ** 2 / c[:, 3], 2, (c[:, 1] ** 2 + c[:, 2] ** 2) / c[:, 3]), lambda p: dict(all=float(np.sum(p))))
