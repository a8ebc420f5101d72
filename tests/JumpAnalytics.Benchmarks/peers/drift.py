"""A million descents through 30 layers: the change of the wind drawn layer by layer, whole arrays at a time. Needs numpy."""
import numpy as np
from common import folder, timed

p = dict(line.split(",") for line in open(f"{folder}/drift.csv").read().split())
p = {k: float(v) for k, v in p.items()}
n, layers = int(p["descents"]), int(p["layers"])


def work():
    g = np.random.default_rng(1)
    shared, own = p["wind_sd"] * np.sqrt(p["shared"]), p["wind_sd"] * np.sqrt(1 - p["shared"])
    seconds, keep = p["seconds"], p["keep"]
    bx, by = (shared * seconds * layers * g.standard_normal(n) for _ in range(2))
    a = b = None
    for k in range(layers):
        u, v = g.standard_normal(n), g.standard_normal(n)
        if k == 0:
            a, b = u, v
        else:
            a *= keep
            b *= keep
            f = np.sqrt(1 - keep * keep)
            a += f * u
            b += f * v
        bx += own * seconds * a
        by += own * seconds * b
    time = np.exp(-p["descent_rate"] * g.standard_normal(n))
    length = p["drift"]
    timing, line = p["exit_timing"] * p["ground_speed"] * g.standard_normal(n), p["exit_across"] * g.standard_normal(n)
    s, c = np.sin(p["run"]), np.cos(p["run"])
    x = time * (length + bx) - length + p["reading_share"] * length * g.standard_normal(n) + p["reading_floor"] * g.standard_normal(n) + timing * c - line * s
    y = time * by + p["reading_angle"] * length * g.standard_normal(n) + p["reading_floor"] * g.standard_normal(n) + timing * s + line * c
    x = p["steering_leaves"] * x + p["jumper_own"] * g.standard_normal(n)
    y = p["steering_leaves"] * y + p["jumper_own"] * g.standard_normal(n)
    distance = np.hypot(x, y)
    half, nine = np.quantile(distance, [0.5, 0.9])
    return half, nine, np.mean(distance <= p["radius"]), np.std(x), np.std(y)


timed("NumPy, layer by layer", work, lambda r: dict(half=float(r[0]), nine=float(r[1]), hits=float(r[2]), sd_downwind=float(r[3]), sd_right=float(r[4])))
