"""Energy scores of isotropic bivariate t forecasts (spread 1 per axis) of a miss at a distance: mpmath, 30 digits, by other formulas than the library's.

mean distance: E sqrt(pi/2 S) L_{1/2}(-d^2 / 2S), S inverse gamma (nu/2, nu/2)   [mean of a Rice distribution, mixed over the variance]
half distance of two: half of sqrt(pi/2) E sqrt(S1 + S2), with E sqrt(x) = 1/(2 sqrt pi) int (1 - E exp(-u x)) u^(-3/2) du and the Laplace transform of S by a Bessel function
"""
from mpmath import mp, mpf, quad, gamma, besselk, hyp1f1, exp, sqrt, pi, inf
mp.dps = 30
print("freedom,distance,mean_distance,self_distance")
for nu in ("1.5", "2", "3", "5.5", "30", "400"):
    n = mpf(nu)
    a = n / 2
    density = lambda w: w ** (a - 1) * exp(-w / 2) / (2 ** a * gamma(a))          # chi squared
    laplace = lambda u: 2 * (u * a) ** (a / 2) * besselk(a, 2 * sqrt(u * a)) / gamma(a) if u > 0 else mpf(1)
    # u = e^(2t): int (1 - L^2) 2 e^(-t) dt, which falls as e^((nu - 1) t) to the left; digits enough for what 1 - L^2 loses there
    left = -int(40 / min(n - 1, 1)) - 10
    mp.dps = 30 + int(-left)
    root = quad(lambda t: 2 * (1 - laplace(exp(2 * t)) ** 2) * exp(-t), list(range(left, 40, 5)) + [80]) / (2 * sqrt(pi))
    mp.dps = 30
    two = sqrt(pi / 2) * root / 2
    for d in ("0", "0.5", "3", "25"):
        x = mpf(d)
        f = lambda w: density(w) * sqrt(n / w) * sqrt(pi / 2) * hyp1f1(-mpf(1) / 2, 1, -x * x * w / (2 * n))
        cuts = [0, n / 1000, n / 10, n / 2, n, 2 * n, 4 * n + 60, 8 * n + 300]
        # w = y^k smooths the power at 0
        k = 10
        g = lambda y: f(y ** k) * k * y ** (k - 1) if y > 0 else mpf(0)
        one = quad(g, [c ** (mpf(1) / k) for c in cuts])
        print(",".join([nu, d, mp.nstr(one, 15), mp.nstr(two, 15)]), flush=True)
