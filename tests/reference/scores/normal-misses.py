"""Scores of bivariate normal forecasts by other ways than the library's. Python 3.11, numpy 1.24.2, scipy 1.10.1.

Probability inside a circle: chords, 12 x 60 points of Gauss and Legendre. CRPS of the distance: panels of 40 points between the observed
distance and the edges of the distribution. Mean distance from a point: the integral of the probability outside circles round it, and once
more, to compare, by the mean sizes of projections (folded normals), 4,000 angles.
"""
import numpy as np
from scipy.special import ndtr

NODES, WEIGHTS = np.polynomial.legendre.leggauss(60)


def panels(low, high, count):
    edges = np.linspace(low, high, count + 1)
    half = np.diff(edges) / 2
    return (edges[:-1] + half)[:, None] + half[:, None] * NODES, half[:, None] * WEIGHTS


def inside(r, m1, m2, v1, v2, c):
    s1 = np.sqrt(v1)
    ends = np.arcsin(np.clip([(m1 - 10 * s1) / r, (m1 + 10 * s1) / r], -1, 1))
    angle, weight = panels(*ends, 12)
    x, chord = r * np.sin(angle), r * np.cos(angle)
    mean, sd = m2 + c / v1 * (x - m1), np.sqrt(v2 - c * c / v1)
    density = np.exp(-0.5 * ((x - m1) / s1) ** 2) / (s1 * np.sqrt(2 * np.pi))
    return np.sum(weight * chord * density * (ndtr((chord - mean) / sd) - ndtr((-chord - mean) / sd)))


def integral(function, low, high, count=40):
    if high <= low:
        return 0.0
    x, weight = panels(low, high, count)
    return sum(w * function(r) for r, w in zip(x.ravel(), weight.ravel()))


def crps(d, end, *normal):
    far = np.hypot(normal[0], normal[1]) + 9 * np.sqrt(max(normal[2], normal[3]))
    near = min(d, end)
    value = integral(lambda r: inside(r, *normal) ** 2, 0, min(near, far)) + max(0, near - far)
    return value + integral(lambda r: (1 - inside(r, *normal)) ** 2, d, min(end, max(far, d))) if d < end else value


def mean_length(*normal):
    d, s = np.hypot(normal[0], normal[1]), np.sqrt(max(normal[2], normal[3]))
    near = max(0, d - 9 * s)
    value = near + integral(lambda r: 1 - inside(r, *normal), near, d + 9 * s)
    assert abs(value - by_projections(*normal)) < 1e-10
    return value


def by_projections(m1, m2, v1, v2, c):
    angle = np.arange(4000) * 2 * np.pi / 4000
    u, v = np.cos(angle), np.sin(angle)
    mean, sd = m1 * u + m2 * v, np.sqrt(v1 * u * u + v2 * v * v + 2 * c * u * v)
    folded = sd * np.sqrt(2 / np.pi) * np.exp(-0.5 * (mean / sd) ** 2) + mean * (2 * ndtr(mean / sd) - 1)
    return folded.mean() * np.pi / 2


def energy(x, y, m1, m2, v1, v2, c):
    return mean_length(m1 - x, m2 - y, v1, v2, c) - mean_length(0, 0, 2 * v1, 2 * v2, 2 * c) / 2


NORMALS = [(8, -5, 900, 400, 120), (0, 0, 625, 625, 0), (40, 25, 100, 2500, -200), (-3, 60, 16, 9, 11.4)]
print("mean_downwind,mean_right,variance_downwind,variance_right,covariance,downwind,right,up_to,crps,energy")
for normal in NORMALS:
    for x, y, end in [(0, 0, np.inf), (3, 4, np.inf), (20, -15, np.inf), (-30, 52, 45), (10, 30, 45), (400, 300, np.inf)]:
        values = (crps(np.hypot(x, y), end, *normal), energy(x, y, *normal))
        given = ",".join(f"{v:g}" for v in (*normal, x, y, end)).replace("inf", "Infinity")
        print(given + "," + ",".join(f"{v:.13g}" for v in values))
