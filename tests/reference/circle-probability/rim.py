"""Writes rim.csv: chord integrals at 30 digits for means near the rim. Needs mpmath."""
import math
import random

import mpmath as mp

mp.mp.dps = 30
random.seed(3)


def inside(R, ms, ml, s, l):
    R, ms, ml, s, l = [mp.mpf(v) for v in (R, ms, ml, s, l)]
    root2 = mp.sqrt(2)

    def f(t):
        x, h = R * mp.sin(t), R * mp.cos(t)
        chord = (mp.erfc((ml - h) / l / root2) - mp.erfc((ml + h) / l / root2)) / 2
        return mp.exp(-(((x - ms) / s) ** 2) / 2) * chord * h / s / mp.sqrt(2 * mp.pi)

    # Split where the density along either axis changes, and towards the end of the disc.
    splits = {-mp.pi / 2, mp.pi / 2}
    for k in [-40, -20, -12, -8, -5, -3, -1.5, 0, 1.5, 3, 5, 8, 12, 20, 40]:
        if abs(ms + k * s) < R:
            splits.add(mp.asin((ms + k * s) / R))
        if 0 < ml + k * l < R:
            splits.add(mp.acos((ml + k * l) / R))
    for e in range(-10, 0):
        splits.add(mp.pi / 2 - mp.mpf(10) ** e)
    return mp.quad(f, sorted(splits), maxdegree=8, error=True)


rows = 0
with open("rim.csv", "w") as out:
    out.write("R,mu_minor,mu_major,sigma_minor,sigma_major,p_inside\n")
    while rows < 90:
        s = 10 ** -random.uniform(0, 1 if rows < 60 else 4)
        R = 10 ** random.uniform(-2, 3 if rows < 75 else 6)
        a = random.choice([0, math.pi / 2, random.uniform(0, math.pi / 2)])
        across = math.hypot(s * math.cos(a), math.sin(a))
        d = max(0, R + random.uniform(-7, 6) * across)
        ms, ml = d * math.cos(a), d * math.sin(a)
        ms, ml = (0.0 if ms < 1e-10 else ms), (0.0 if ml < 1e-10 else ml)
        value, error = inside(R, ms, ml, s, 1.0)
        if value == 0 or error / value > 1e-15:
            continue
        out.write("%r,%r,%r,%r,%r,%s\n" % (R, ms, ml, s, 1.0, mp.nstr(value, 20)))
        rows += 1
