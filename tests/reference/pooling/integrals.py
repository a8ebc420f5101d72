# Values for integrals.csv, by mpmath at 40 digits: mean hit probabilities of normal log-odds, nodes and weights of Gauss-Hermite rules,
# and a log-likelihood with mission effects integrated out by quadrature and cell effects after them by Laplace's approximation.
# usage: python3 integrals.py > integrals.csv
from mpmath import mp, mpf, quad, log, exp, sqrt, pi, matrix, diff, det, lu_solve, inf, polyroots, hermite, factorial
mp.dps = 40
print("what,a,b,value")

def phi(z): return exp(-z * z / 2) / sqrt(2 * pi)
def logistic(x): return 1 / (1 + exp(-x))
cuts = [-14, -8, -5, -3, -2, -1, 0, 1, 2, 3, 5, 8, 14]

for level, sd in [(0, 1), (1.5, 0), (1.5, 0.6), (-3, 2), (4, 5), (2, 15), (-12, 1), (25, 0.5)]:
    print(f"mean,{level},{sd},{mp.nstr(quad(lambda z: logistic(mpf(level) + mpf(sd) * z) * phi(z), cuts, maxdegree=9), 17)}")

# Roots of the Hermite polynomial for the weight of the standard normal, from the physicists' one.
for n in (2, 5, 15, 25):
    c = [0] * (n + 1)
    for m in range(n // 2 + 1): c[2 * m] = (-1) ** m * factorial(n) / (factorial(m) * factorial(n - 2 * m)) * mpf(2) ** (n - 2 * m)
    for k, x in enumerate(sorted(mp.re(r) for r in polyroots(c, maxsteps=2000, extraprec=2000))):
        w = mpf(2) ** (n - 1) * factorial(n) * sqrt(pi) / (n * hermite(n - 1, x)) ** 2 / sqrt(pi)
        print(f"node {n},{k},{mp.nstr(x * sqrt(2), 17)},{mp.nstr(log(w), 17)}")

# Missions as (cell, hits, landings); fixed levels; standard deviations between missions and between cells.
missions = [[(0, 3, 4), (2, 1, 5)], [(0, 1, 1)], [(1, 6, 6)], [(1, 0, 3), (0, 2, 2), (2, 2, 7)], [(2, 4, 8)], [(1, 2, 5)], [(0, 3, 4), (2, 1, 5)]]
levels = [mpf("0.4"), mpf("1.1"), mpf("-0.7")]
def mission(groups, a, sd):
    def f(u):
        p = phi(u)
        for c, k, n in groups: p *= exp(k * (a[c] + sd * u)) / (1 + exp(a[c] + sd * u)) ** n
        return p
    return log(quad(f, cuts, maxdegree=9))
def total(a, sd): return sum(mission(g, a, sd) for g in missions)
def nested(sd, cell):
    h = mpf(10) ** -9
    def g(v): return total([levels[c] + cell * v[c] for c in range(3)], sd) - sum(x * x for x in v) / 2
    def moved(v, *steps):
        w = list(v)
        for c, s in steps: w[c] += s
        return g(w)
    v = [mpf(0)] * 3
    for step in range(7):
        slope, hess, here = matrix(3, 1), matrix(3, 3), g(v)
        for i in range(3):
            up, down = moved(v, (i, h)), moved(v, (i, -h))
            slope[i], hess[i, i] = (up - down) / (2 * h), (up - 2 * here + down) / h ** 2
            for j in range(i):
                hess[i, j] = hess[j, i] = (moved(v, (i, h), (j, h)) - moved(v, (i, h), (j, -h)) - moved(v, (i, -h), (j, h)) + moved(v, (i, -h), (j, -h))) / (4 * h * h)
        move = lu_solve(-hess, slope)
        if max(abs(x) for x in move) < mpf(10) ** -15: break
        v = [v[i] + move[i] for i in range(3)]
    return g(v) - log(det(-hess)) / 2, [cell * x for x in v]

print(f"missions,0.8,0,{mp.nstr(total(levels, mpf('0.8')), 17)}")
for sd, cell in [("0.8", "0.6"), ("1.5", "1.2")]:
    value, effect = nested(mpf(sd), mpf(cell))
    print(f"nested,{sd},{cell},{mp.nstr(value, 15)}")
    for c in range(3): print(f"effect {c},{sd},{cell},{mp.nstr(effect[c], 14)}")
