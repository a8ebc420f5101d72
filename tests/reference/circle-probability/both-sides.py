"""Writes both-sides.csv: both probabilities as integrals of their own, at 30 digits. Needs mpmath."""
import math
import random

import mpmath as mp

mp.mp.dps = 30
random.seed(11)
ROOT2 = mp.sqrt(2)
EXACT = mp.mpf(10) ** -15


def tail(z):
    return mp.erfc(z / ROOT2) / 2


def both(R, m1, m2, v1, v2, c):
    """Inside and outside by chords at a fixed first coordinate, the second one normal given the first."""
    R, m1, m2, v1, v2, c = [mp.mpf(x) for x in (R, m1, m2, v1, v2, c)]
    s1, slope = mp.sqrt(v1), c / v1
    rest = mp.sqrt(v2 - slope * c)

    def chord(t):
        x, h = R * mp.sin(t), R * mp.cos(t)
        density = mp.exp(-(((x - m1) / s1) ** 2) / 2) / s1 / mp.sqrt(2 * mp.pi)
        return h, abs(m2 + slope * (x - m1)), density * h

    def inside(t):
        h, mean, weight = chord(t)
        return weight * (tail((mean - h) / rest) - tail((mean + h) / rest))

    def outside(t):
        h, mean, weight = chord(t)
        return weight * (tail((h - mean) / rest) + tail((h + mean) / rest))

    # Split where the density along either axis changes, round the greatest value outside, and towards the ends.
    splits = {-mp.pi / 2, mp.pi / 2}
    for k in [-40, -30, -20, -14, -10, -7, -5, -3, -1.5, 0, 1.5, 3, 5, 7, 10, 14, 20, 30, 40]:
        if abs(m1 + k * s1) < R:
            splits.add(mp.asin((m1 + k * s1) / R))
        if 0 < abs(m2) + k * rest < R:
            splits.add(mp.acos((abs(m2) + k * rest) / R))
            splits.add(-mp.acos((abs(m2) + k * rest) / R))
    across = [z for z in (-45 + 0.09 * k for k in range(1001)) if abs(m1 + z * s1) < R]
    peak = max(across, key=lambda z: outside(mp.asin((m1 + z * s1) / R)), default=0)
    splits |= {mp.asin((m1 + (peak + k) * s1) / R) for k in (-6, -3, -1, 0, 1, 3, 6) if abs(m1 + (peak + k) * s1) < R}
    for e in range(-10, 0):
        splits |= {mp.pi / 2 - mp.mpf(10) ** e, mp.mpf(10) ** e - mp.pi / 2}
    values = []
    for f, ends in (inside, 0), (outside, tail((R - m1) / s1) + tail((R + m1) / s1)):
        # In units of its greatest value: the estimated error of the quadrature does not go below the precision.
        unit = max(f(mp.asin((m1 + z * s1) / R)) for z in across) if across else mp.mpf(1)
        value, error = mp.quad(lambda t: f(t) / unit, sorted(splits), maxdegree=8, error=True)
        values.append((value * unit + ends, error * unit))
    good = all(error < EXACT * value for value, error in values) and abs(values[0][0] + values[1][0] - 1) < EXACT
    return [value for value, _ in values] if good else None


def ordinary():
    """Metres; sigma ratio 0.3 to 1, any direction, means up to five sigma, radius 0.3 to 3 sigma."""
    s, ratio, axis = random.uniform(20, 80), random.uniform(0.3, 1), random.uniform(0, math.pi)
    far, to = s * random.uniform(0, 5), random.uniform(0, 2 * math.pi)
    v, w, cos, sin = s * s, (s * ratio) ** 2, math.cos(axis), math.sin(axis)
    return (s * random.uniform(0.3, 3), far * math.cos(to), far * math.sin(to),
            cos * cos * v + sin * sin * w, sin * sin * v + cos * cos * w, sin * cos * (v - w))


def deep(least):
    """Means inside the rim, 2 to 38 standard deviations from it; sigma ratio down to the least, first axis the minor."""
    s, a = 10 ** -random.uniform(0, -math.log10(least)), random.choice([0, math.pi / 2, random.uniform(0, math.pi / 2)])
    across = math.hypot(s * math.cos(a), math.sin(a))
    from_rim = across * random.uniform(2, 38)
    R = from_rim * 10 ** random.choice([0, random.uniform(0, 1), random.uniform(0, 3)])
    d = R - from_rim
    return (R, d * math.cos(a), d * math.sin(a), s * s, 1.0, 0.0)


with open("both-sides.csv", "w") as out:
    out.write("kind,R,mu_1,mu_2,variance_1,variance_2,covariance,p_inside,p_outside\n")
    for kind, wanted, make in [("ordinary", 120, ordinary), ("deep", 60, lambda: deep(0.1)), ("narrow", 60, lambda: deep(1e-4))]:
        rows = 0
        while rows < wanted:
            case = make()
            found = both(*case)
            if found is None or found[1] < mp.mpf("1e-300"):
                continue
            out.write(",".join([kind, *map(repr, case), *(mp.nstr(p, 20) for p in found)]) + "\n")
            rows += 1
