"""Reads, checks and reduces a log to counts and rates by cell. Needs numpy, pandas."""
import numpy as np
import pandas as pd
from common import folder, timed


def work():
    drops = pd.read_csv(f"{folder}/log/drops.csv", dtype=str)
    landings = pd.read_csv(f"{folder}/log/landings.csv", dtype=str)
    for name, column in (("radius", "target_radius_m"), ("wind", "wind_speed_mps"), ("drift", "forecast_drift_m"), ("to", "forecast_to_deg")):
        drops[name] = pd.to_numeric(drops[column], errors="coerce")
    drops["when"] = pd.to_datetime(drops["time"], errors="coerce", format="%Y-%m-%dT%H:%M")
    ok = drops[["drop_id", "mission", "terrain", "when"]].notna().all(axis=1) & (drops.radius > 0) & (drops.wind >= 0) & (drops.drift >= 0) & drops.to.between(0, 360)
    good = drops[ok].drop_duplicates("drop_id")
    landings["distance"] = pd.to_numeric(landings["landing_distance_m"], errors="coerce")
    landings["bearing"] = pd.to_numeric(landings["landing_bearing_deg"], errors="coerce")
    fine = landings[landings["drop_id"].notna() & (landings.distance >= 0) & landings.bearing.between(0, 360)]
    both = fine.merge(good[["drop_id", "mission", "terrain", "radius", "wind"]], on="drop_id")
    both["hit"] = both.distance <= both.radius * (1 + 1e-9)
    both["band"] = np.searchsorted([0, 2, 4, 6], both.wind, side="right")
    missions = both.groupby(["band", "terrain", "mission"], sort=False)["hit"].agg(["size", "sum"]).reset_index()
    total = missions.groupby(["band", "terrain"])[["size", "sum"]].sum()
    missions = missions.join(total, on=["band", "terrain"], rsuffix="_all")
    missions["square"] = (missions["sum"] - missions["sum_all"] / missions["size_all"] * missions["size"]) ** 2
    cells = missions.groupby(["band", "terrain"]).agg(square=("square", "sum"), m=("square", "size")).join(total)
    cells["se"] = np.sqrt(cells.m / (cells.m - 1) * cells.square) / cells["size"]
    return cells


timed("pandas", work, lambda c: dict(landings=int(c["size"].sum()), hits=int(c["sum"].sum()), cells=len(c), se=float(c["se"].sum())))
