"""Probability of an elliptical t in a circle about the origin, by chords: density of the first coordinate times the probability of the
chord under the conditional t of the second. mpmath 1.2.1, 40 digits; run: python3 disc.py > disc.csv"""
import random
from mpmath import mp, mpf, mpmathify, sqrt, asin, sin, cos, pi, gamma, betainc, quad, inf

mp.dps = 40


def upper(t, n):  # P(T > t), t >= 0
    return betainc(n / 2, mpf(1) / 2, 0, n / (n + t * t), regularized=True) / 2


def between(low, high, n):
    if low >= 0:
        return upper(low, n) - upper(high, n)
    if high <= 0:
        return upper(-high, n) - upper(-low, n)
    return 1 - upper(-low, n) - upper(high, n)


def outside(low, high, n):
    below = upper(-low, n) if low <= 0 else 1 - upper(low, n)
    above = upper(high, n) if high >= 0 else 1 - upper(-high, n)
    return below + above


def disc(R, m1, m2, v1, v2, c, nu):
    R, m1, m2, v1, v2, c, nu = (mpmathify(x) for x in (R, m1, m2, v1, v2, c, nu))
    s1 = sqrt(v1)
    norm = gamma((nu + 1) / 2) / gamma(nu / 2) / sqrt(nu * pi) / s1
    rest = v2 - c * c / v1

    def at(x):
        z = (x - m1) / s1
        scale = sqrt(rest * (nu + z * z) / (nu + 1))
        middle = m2 + c / v1 * (x - m1)
        half = sqrt(max(mpf(0), R * R - x * x))
        return norm * (1 + z * z / nu) ** (-(nu + 1) / 2), (-half - middle) / scale, (half - middle) / scale

    def inside(phi):
        density, low, high = at(R * sin(phi))
        return density * between(low, high, nu + 1) * R * cos(phi)

    def beyond(phi):
        density, low, high = at(R * sin(phi))
        return density * outside(low, high, nu + 1) * R * cos(phi)

    # Breaks where the density or the chord changes quickly.
    width2 = sqrt(rest)
    breaks = {m1 + k * s1 for k in (-30, -6, -2, 0, 2, 6, 30)}
    if abs(m2) < R:
        end = sqrt(R * R - m2 * m2)
        breaks |= {e + k * w for e in (end, -end) for w in (s1, width2) for k in (-20, -5, 0, 5, 20)}
    breaks |= {R * (1 - mpf(10) ** -k) for k in range(1, 12, 2)} | {-R * (1 - mpf(10) ** -k) for k in range(1, 12, 2)}
    points = sorted({asin(b / R) for b in breaks if -R < b < R} | {-pi / 2, pi / 2})
    points = [p for i, p in enumerate(points) if i == 0 or p - points[i - 1] > mpf(10) ** -12]
    points[-1] = pi / 2
    within, e1 = quad(inside, points, error=True, maxdegree=7)
    if within < mpf(1) / 2:
        return within, 1 - within, e1 / within
    far, e2 = quad(beyond, points, error=True, maxdegree=7)
    far += outside((-R - m1) / s1, (R - m1) / s1, nu)
    return 1 - far, far, max(abs(within + far - 1), e2) / far


def text(x, digits=17):
    return mp.nstr(x, digits, strip_zeros=True)


if __name__ == "__main__":
    dice = random.Random(20250601)
    cases = []
    for nu in (0.5, 1, 2.25, 5, 30, 1000):
        for ratio in (1, 0.5, 0.1, 0.01):
            for _ in range(8):
                s1 = dice.choice((1, 12, 40))
                rho = dice.choice((0, 0, 0.6, -0.9))
                away = dice.choice((0, 0.3, 2, 10, 100)) * s1
                radius = dice.choice((0.01, 0.5, 1, 3, 20, 300)) * s1
                turn = dice.uniform(0, 6.28)
                m1, m2 = round(away * float(cos(turn)), 3), round(away * float(sin(turn)), 3)
                v1, v2 = s1 * s1, (ratio * s1) ** 2
                if dice.random() < 0.5:
                    v1, v2 = v2, v1
                cases.append((radius, m1, m2, v1, v2, rho * s1 * s1 * ratio, nu))
    print("radius,centre_1,centre_2,scatter_11,scatter_22,scatter_12,degrees_of_freedom,within,beyond,estimated_relative_error")
    for case in cases:
        within, beyond, error = disc(*case)
        if min(within, beyond) < 1e-30 or error > 1e-14:
            continue
        print(",".join(repr(float(x)) for x in case) + f",{text(within)},{text(beyond)},{text(error, 2)}", flush=True)
