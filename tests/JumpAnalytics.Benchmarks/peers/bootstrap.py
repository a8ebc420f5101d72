"""10,000 resamples of missions: rates and R90 of twelve cells, whole arrays at a time. Needs numpy."""
import numpy as np
from common import folder, timed

rows = np.fromfile(f"{folder}/bootstrap.f64").reshape(-1, 4)  # mission, cell, distance, hit
mission, cell, distance, hit = rows[:, 0].astype(int), rows[:, 1].astype(int), rows[:, 2], rows[:, 3]
missions, cells, replicates = mission.max() + 1, cell.max() + 1, 10_000


def work():
    g = np.random.default_rng(1)
    weights = g.multinomial(missions, np.full(missions, 1 / missions), size=replicates).astype(np.int32)
    rates, radii = np.empty((replicates, cells)), np.empty((replicates, cells))
    for c in range(cells):
        of = np.flatnonzero(cell == c)
        of = of[np.argsort(distance[of], kind="stable")]
        w = weights[:, mission[of]]
        total = w.sum(axis=1)
        rates[:, c] = w @ hit[of] / total
        rank = np.clip((total + 1 / 3) * 0.9 + 1 / 3, 1, total)
        up = np.cumsum(w, axis=1)
        low, high = np.floor(rank).astype(int), np.minimum(np.floor(rank).astype(int) + 1, total)
        i, j = (up < low[:, None]).sum(axis=1), (up < high[:, None]).sum(axis=1)
        d = distance[of]
        radii[:, c] = d[i] + (rank - np.floor(rank)) * (d[j] - d[i])
    return rates, radii


def figures(r):
    return {f"{name}_sd_{c}": float(np.std(v[:, c], ddof=1)) for name, v in (("rate", r[0]), ("r90", r[1])) for c in range(cells)}


timed("NumPy", work, figures)
