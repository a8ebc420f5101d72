# Normal tolerance factors to 18 digits with mpmath: Gauss-Legendre quadrature over the chi density (one-sided) and over the
# place of the mean (two-sided). python3 tolerance-exact.py > tolerance-exact.csv
from mpmath import mp, mpf, erfc, erfinv, exp, findroot, gamma, gammainc, log, loggamma, nstr, pi, sqrt
from mpmath.calculus.quadrature import GaussLegendre

mp.dps = 30
LEVEL = GaussLegendre(mp).calc_nodes(6, 120)  # 192 nodes on (-1, 1)


def nodes(edges):
    for a, b in zip(edges, edges[1:]):
        half, mid = (b - a) / 2, (a + b) / 2
        for x, w in LEVEL:
            yield mid + half * x, half * w


def Phi(z):
    return erfc(-z / sqrt(mpf(2))) / 2


def z(p):
    return sqrt(mpf(2)) * erfinv(2 * p - 1)


def root(f, low, high):
    return findroot(f, (low, high), solver='illinois', tol=mpf(10) ** -44, maxsteps=200)


def one_sided(n, P, g, guess):
    v = mpf(n - 1)
    spread = 1 / sqrt(2 * v)
    low, high = max(mpf(0), 1 - 12 * spread), 1 + 13 * spread
    edges = [low + (high - low) * i / 6 for i in range(7)]
    if low == 0:  # few degrees of freedom: the far limits hang on what is next to 0
        edges = [mpf(0)] + [high * mpf(2) ** (i - 13) for i in range(14)]
    const = log(2) + v / 2 * log(v / 2) - loggamma(v / 2)
    chi = [(s, w * exp(const + (v - 1) * log(s) - v * s * s / 2)) for s, w in nodes(edges)]
    d = sqrt(mpf(n)) * z(P)
    k = root(lambda k: sum(w * Phi(k * sqrt(mpf(n)) * s - d) for s, w in chi) - g, guess / 100, guess * mpf('1.2'))
    return k


def two_sided(n, P, g):
    v = mpf(n - 1)
    zp = z((1 + P) / 2)
    mean = []
    r = zp
    for u, w in nodes([mpf(0), mpf(2), mpf(5), mpf(12)]):
        x = u / sqrt(mpf(n))
        r = findroot(lambda q: 1 - Phi(-x - q) - Phi(x - q) - P, (zp, x + zp), solver='illinois', tol=mpf(10) ** -50, maxsteps=200)
        mean.append((r, w * 2 * exp(-u * u / 2) / sqrt(2 * pi)))
    F = lambda k: sum(w * gammainc(v / 2, v * r * r / (2 * k * k), mp.inf, regularized=True) for r, w in mean) - g
    return root(F, zp / 2, zp * (500 if n == 2 else 50 if n == 3 else 6))


print('n,share,confidence,one_sided,two_sided')
for n in (2, 3, 10, 43, 1000):
    for P in ('0.6', '0.9', '0.99'):
        for g in ('0.5', '0.9', '0.99'):
            p, c = mpf(P), mpf(g)
            two = two_sided(n, p, c)
            one = one_sided(n, p, c, two)
            print(f"{n},{P},{g},{nstr(one, 18)},{nstr(two, 18)}", flush=True)
