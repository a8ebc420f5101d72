"""What the Python peers share: they get a folder and a number of runs, and print one line of JSON for each result: seconds of each run, and figures to compare."""
import json, sys, time

folder = sys.argv[1]
runs = int(sys.argv[2])


def timed(label, work, figures, runs=runs, scale=1.0):
    seconds, result = [], None
    for _ in range(runs):
        start = time.perf_counter()
        result = work()
        seconds.append((time.perf_counter() - start) * scale)
    print(json.dumps({"label": label, "seconds": seconds, "figures": figures(result)}), flush=True)
