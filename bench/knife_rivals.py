"""The knife plan's programme by its rivals, on the same problem and in the same run.

    .venv/bin/python bench/knife_rivals.py [--no-milp]

A numpy programme (all counts and all lengths of a portion at once, place by place from the far end) and HiGHS (scipy's
milp, arcs and equations; some ten seconds to minutes). Prints times, ratios and whether the optimum is the same.
"""

import json
import subprocess
import sys
import time
from pathlib import Path

import numpy as np

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT / "crates/roll/tests/published"))


def numpy_programme(problem):
    """Least cost from the first node: two counted lines and one without a count, one phase, nothing left between."""
    nodes, lines = problem["nodes"], problem["lines"]
    counted = [line for line in lines if line["units"] is not None]
    endless = [line for line in lines if line["units"] is None]
    shape = tuple(line["units"] + 1 for line in counted)
    longest = max(line["shortest"] + len(line["cost"]) for line in lines)
    # Padded behind the end, so that no length needs a test of its own.
    value = np.full(shape + (nodes + longest,), np.inf)
    costs = {id(line): np.array(line["cost"]).T.copy() for line in lines}
    up_to, past = np.array(problem["up_to"]), np.array(problem["past"])
    missing = np.zeros(shape)
    for axis, line in enumerate(counted):
        short = problem["missing"] * line["portions"] * np.arange(line["units"], -1, -1)
        missing += short.reshape([-1 if a == axis else 1 for a in range(len(shape))])
    for node in range(nodes - 1, -1, -1):
        rest = 0.0 if node + 1 == nodes else problem["price"] * (up_to[-1] - past[node])
        best = missing + rest
        for line in endless:
            first = node + line["shortest"]
            after = value[..., first : first + len(line["cost"])]
            np.minimum(best, (after + costs[id(line)][node]).min(axis=-1), out=best)
        for axis, line in enumerate(counted):
            first = node + line["shortest"]
            used = [slice(None)] * len(shape)
            used[axis] = slice(1, None)
            here = [slice(None)] * len(shape)
            here[axis] = slice(None, -1)
            after = value[tuple(used) + (slice(first, first + len(line["cost"])),)]
            target = best[tuple(here)]
            np.minimum(target, (after + costs[id(line)][node]).min(axis=-1), out=target)
        value[..., node] = best
    return value[(0,) * len(shape) + (0,)]


def median_ms(run, times):
    taken = []
    for _ in range(times):
        start = time.perf_counter()
        result = run()
        taken.append((time.perf_counter() - start) * 1000)
    return sorted(taken)[times // 2], result


def main():
    command = ["cargo", "bench", "--quiet", "-p", "roll", "--bench", "knife", "--", "--json"]
    told = subprocess.run(command, cwd=ROOT, check=True, capture_output=True, text=True).stdout
    ours = json.loads(told)
    problem = ours["programme"]
    print(f"{ours['transitions']} transitions; gambrel {ours['solve_ms']:.2f} ms, cost {ours['cost']:.9f}")
    print(f"  whole plan {ours['plan_ms']:.2f} ms, re-plan after four weighed portions {ours['replan_ms']:.2f} ms")
    numpy_ms, cost = median_ms(lambda: numpy_programme(problem), 21)
    print(f"numpy programme {numpy_ms:.1f} ms, cost {cost:.9f}: ratio {numpy_ms / ours['solve_ms']:.1f}")
    same = abs(cost - ours["cost"]) < 1e-9 * max(1.0, abs(cost))
    if "--no-milp" not in sys.argv:
        from milp import solve

        milp_ms, result = median_ms(lambda: solve(problem), 1)
        proved = "proved" if result.status == 0 else "not proved"
        print(f"HiGHS {milp_ms / 1000:.1f} s, cost {result.fun:.9f}, {proved}: ratio {milp_ms / ours['solve_ms']:.0f}")
        same = same and abs(result.fun - ours["cost"]) < 1e-6 * max(1.0, abs(cost))
    if not same:
        sys.exit("the optima differ")


if __name__ == "__main__":
    main()
