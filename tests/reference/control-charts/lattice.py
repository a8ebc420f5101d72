# Exact run lengths of cumulative sums of hits on a lattice, in rational numbers: Python 3, fractions only.
from fractions import Fraction as F
from math import comb

def law(steps, limit, start, points):
    n = limit + 1
    move = [[F(0)] * n for _ in range(n)]
    for i in range(n):
        for rise, p in steps.items():
            to = max(0, i + rise)
            if to <= limit: move[i][to] += p
    a = [[(1 if i == j else 0) - move[i][j] for j in range(n)] + [F(1)] for i in range(n)]
    for c in range(n):
        r = next(r for r in range(c, n) if a[r][c] != 0)
        a[c], a[r] = a[r], a[c]
        a[c] = [x / a[c][c] for x in a[c]]
        for r in range(n):
            if r != c and a[r][c] != 0: a[r] = [x - a[r][c] * y for x, y in zip(a[r], a[c])]
    average = a[start][n]
    left = [F(1)] * n
    for _ in range(points): left = [sum(move[i][j] * left[j] for j in range(n)) for i in range(n)]
    return average, 1 - left[start]

def two(p, up, down, limit, points):
    """Both charts at once, the pair of sums as the state."""
    here, signalled, out = {(0, 0): F(1)}, F(0), []
    for _ in range(points):
        nxt = {}
        for (a, b), w in here.items():
            for k in range(len(p)):
                x, y = max(0, a + up[k]), max(0, b + down[k])
                if x > limit or y > limit: signalled += w * p[k]
                else: nxt[(x, y)] = nxt.get((x, y), 0) + w * p[k]
        here = nxt
        out.append(float(signalled))
    return out

print("chart,misses_chance,landings,rise,fall,limit,start,points,average,within")
# One landing a point: up by `rise` at a miss, down by `fall` at a hit.
for chance in (F(1, 10), F(1, 5)):
    for rise, fall, limit, start in ((4, 1, 15, 0), (3, 1, 11, 4), (7, 2, 30, 0)):
        a, w = law({rise: chance, -fall: 1 - chance}, limit, start, 50)
        print(f"bernoulli,{float(chance)},1,{rise},{fall},{limit},{start},50,{float(a)!r},{float(w)!r}")
# Five landings a point: up by `rise` for each miss, down by `fall` for the point.
for chance in (F(1, 10), F(1, 5)):
    for rise, fall, limit in ((3, 4, 14), (2, 2, 13)):
        steps = {}
        for k in range(6): steps[rise * k - fall] = steps.get(rise * k - fall, 0) + comb(5, k) * chance**k * (1 - chance)**(5 - k)
        a, w = law(steps, limit, 0, 50)
        print(f"binomial,{float(chance)},5,{rise},{fall},{limit},0,50,{float(a)!r},{float(w)!r}")
# Two charts, five landings: up 3k - 5 and down 4 - 3k for k misses (sum -1).
p = [comb(5, k) * F(1, 5)**k * F(4, 5)**(5 - k) for k in range(6)]
q = two(p, [3 * k - 5 for k in range(6)], [4 - 3 * k for k in range(6)], 9, 40)
for n in (1, 2, 5, 10, 20, 40): print(f"both,0.2,5,3,5,9,0,{n},,{q[n - 1]!r}")
