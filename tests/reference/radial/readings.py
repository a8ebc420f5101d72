"""Log-likelihoods of distance readings under six distributions, to 17 digits: python3 readings.py > readings.csv (mpmath 1.3.0).

A reading is low,high in the unit of the parameters: equal for a measured distance (log density), high = inf for "beyond".
Each probability is computed in a form that has no cancellation left at the working precision of 60 digits, most of them in
another form than the library's: Rice as a Poisson mixture of gamma tails, Hoyt over the angle of the whitened plane, gamma by
Kummer's series, lognormal by the complementary error function.
"""
from mpmath import mp, mpf, exp, log, sqrt, pi, erfc, expm1, loggamma, besseli, quad, cos, sin, atan, inf

mp.dps = 60


def rayleigh(s, _):
    return weibull(s * sqrt(2), mpf(2))


def weibull(scale, k):
    def density(r):
        return log(k / scale) + (k - 1) * log(r / scale) - (r / scale) ** k

    def between(a, b):
        if b == inf:
            return -((a / scale) ** k)
        x, y = (a / scale) ** k, (b / scale) ** k
        return -x + log(-expm1(-(y - x)))

    return density, between


def lognormal(median, s):
    z = lambda r: log(r / median) / s
    above = lambda t: erfc(t / sqrt(2)) / 2

    def density(r):
        return -z(r) ** 2 / 2 - log(r * s * sqrt(2 * pi))

    def between(a, b):
        if a == 0:
            return log(above(-z(b)))
        if b == inf:
            return log(above(z(a)))
        return log(above(z(a)) - above(z(b)) if a > median else above(-z(b)) - above(-z(a)))

    return density, between


def gamma(mean, k):
    x = lambda r: r * k / mean

    def density(r):
        return (k - 1) * log(r) - x(r) + k * log(k / mean) - loggamma(k)

    def within(r):
        """Kummer's series at 500 digits, so that 1 less it is good to 60 down to 1e-400."""
        with mp.workdps(500):
            y, total, term, n = x(r), mpf(1), mpf(1), 1
            while term > total * mpf(10) ** -500:
                term *= y / (k + n)
                total += term
                n += 1
            return exp(k * log(y) - y - loggamma(k + 1)) * total

    def between(a, b):
        with mp.workdps(500):
            low, high = within(a) if a > 0 else 0, within(b) if b != inf else 1
            return log(high - low)

    return density, between


def rice(bias, s):
    a = bias / s

    def density(r):
        z = r / s
        return log(z / s) - (z - a) ** 2 / 2 + log(exp(-a * z) * besseli(0, a * z))

    def tails(r):
        """Share within and beyond: given a Poisson count j of mean a²/2, z²/2 is gamma with shape j + 1."""
        m, y = a * a / 2, (r / s) ** 2 / 2
        n = int(m + y + 40 * sqrt(m + y) + 200)
        terms = [exp(-y)]
        for i in range(1, n):
            terms.append(terms[-1] * y / i)
        upper, total = [], mpf(0)
        for t in terms:
            total += t
            upper.append(total)
        lower, total = [mpf(0)] * n, mpf(0)
        for i in range(n - 1, -1, -1):
            lower[i] = total
            total += terms[i]
        within, beyond, weight = mpf(0), mpf(0), exp(-m)
        for j in range(n):
            within += weight * lower[j]
            beyond += weight * upper[j]
            weight *= m / (j + 1)
        return within, beyond

    def between(lo, hi):
        if lo == 0:
            return log(tails(hi)[0])
        if hi == inf:
            return log(tails(lo)[1])
        (w1, b1), (w2, b2) = tails(lo), tails(hi)
        return log(w2 - w1 if w1 < b1 else b1 - b2)

    return density, between


def hoyt(larger, smaller):
    q = smaller / larger

    def density(r):
        z = r / larger
        if q == 0:
            return log(sqrt(2 / pi) / larger) - z * z / 2
        x = z * z * (1 / q ** 2 - 1) / 4
        return log(z / q / larger) - z * z / 2 + log(exp(-x) * besseli(0, x))

    def between(lo, hi):
        x, y = (lo / larger) ** 2 / 2, (mpf(hi) / larger) ** 2 / 2
        if q == 0:
            return log(erfc(sqrt(x)) - (erfc(sqrt(y)) if hi != inf else 0))

        def ring(angle):
            h = cos(angle) ** 2 + (q * sin(angle)) ** 2
            return exp(-x / h) * (1 if hi == inf else -expm1(-(y - x) / h))

        near = [atan(q * f) for f in (mpf(1) / 30, mpf(1) / 10, mpf(1) / 3, 1, 3, 10, 30) if q * f < 1]
        cuts = sorted({mpf(0), pi / 8, pi / 4, 3 * pi / 8, pi / 2, *[pi / 2 - n for n in near], *([atan(mpf(c) / sqrt(2 * x)) for c in (1, 3, 6)] if x > 1 else [])})
        return log(quad(ring, cuts, maxdegree=9) * 2 / pi)

    return density, between


MODELS = {
    "Rayleigh": (rayleigh, [(30.0, 0.0), (1.0, 0.0)]),
    "Weibull": (weibull, [(40.0, 1.7), (25.0, 0.4), (1.0, 1.0), (80.0, 35.0)]),
    "lognormal": (lognormal, [(25.0, 0.6), (3.0, 2.5), (500.0, 0.01)]),
    "gamma": (gamma, [(30.0, 2.2), (12.0, 0.3), (20.0, 1.0), (5.0, 11.9), (60.0, 150.0), (100.0, 20000.0), (8.0, 0.02)]),
    "Rice": (rice, [(20.0, 15.0), (0.0, 10.0), (0.01, 3.0), (60.0, 9.0), (300.0, 6.0), (35.0, 10.0)]),
    "Hoyt": (hoyt, [(30.0, 12.0), (20.0, 20.0), (20.0, 19.9), (40.0, 1.0), (10.0, 0.001), (15.0, 0.0)]),
}
PLACES = [1e-6, 0.01, 0.2, 0.5, 0.9, 1.0, 1.1, 1.6, 2.5, 4.0]  # of a distance in the middle of the distribution
RINGS = [(0.3, 0.4), (0.5, 1.5), (0.9, 0.900001), (0.999999999, 1.0), (0.99, 1.02), (2.0, 3.0), (3.0, 3.000000001), (0.01, 30.0)]


def middle(name, p):
    if name == "Rayleigh":
        return 1.18 * p[0]
    if name == "Rice":
        return (p[0] ** 2 + 2 * p[1] ** 2) ** 0.5
    return 0.75 * p[0] if name == "Hoyt" else p[0]


def relative_spread(name, p):
    if name == "lognormal":
        return p[1]
    if name == "gamma":
        return p[1] ** -0.5
    if name == "Weibull":
        return 1 / p[1]
    return p[1] / middle(name, p) if name == "Rice" else 1


def main():
    print("model,first,second,low,high,log_likelihood")
    for name, (make, parameters) in MODELS.items():
        for p in parameters:
            density, between = make(*map(mpf, p))
            at = middle(name, p)
            spread = relative_spread(name, p)
            narrow = spread < 0.2
            scaled = lambda f: float(at * (max(1 + 3 * spread * (f - 1), 0.01 * f) if narrow else f))
            rows = []
            for f in PLACES:
                r = scaled(f)
                rows += [(r, r, density(mpf(r))), (0.0, r, between(mpf(0), mpf(r))), (r, inf, between(mpf(r), inf))]
            for lo, hi in RINGS:
                lo, hi = scaled(lo), scaled(hi)
                if lo < hi:
                    rows.append((lo, hi, between(mpf(lo), mpf(hi))))
            for lo, hi, value in rows:
                print(f"{name},{p[0]!r},{p[1]!r},{lo!r},{'inf' if hi == inf else repr(hi)},{mp.nstr(value, 17)}")


main()
