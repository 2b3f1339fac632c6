"""A plan's programme by a general solver: scipy's milp (HiGHS), which knows arcs and equations only.

Reads one programme a line (JSON), prints the least cost of each and whether it was proved.
"""

import json
import sys

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import coo_array


def arcs(problem):
    nodes, phases, price = problem["nodes"], problem["phases"], problem["price"]
    up_to, past = problem["up_to"], problem["past"]

    def state(gap, phase, node):
        return (gap * phases + phase) * nodes + node

    sink = 2 * phases * nodes
    for gap in (0, 1):
        for phase in range(phases):
            for node in range(nodes):
                here = state(gap, phase, node)
                stop = 0.0
                if node + 1 < nodes:
                    stop = price * (up_to[-1] - past[node])
                    if gap or (problem["last_reaches_end"] and phase + 1 == phases):
                        stop += problem["again"]
                yield here, sink, stop, None
                if phase + 1 < phases:
                    yield here, state(gap, phase + 1, node), 0.0, None
                if not gap and problem["gap_in"][phase]:
                    for after in range(node + problem["gap_steps"], nodes):
                        yield here, state(1, phase, after), price * (up_to[after] - past[node]), None
                for number, line in enumerate(problem["lines"]):
                    if line["phase"] == phase:
                        for index, cost in enumerate(line["cost"]):
                            to = node + line["shortest"] + index
                            if to < nodes and np.isfinite(cost[node]):
                                yield here, state(gap, phase, to), cost[node], number


def solve(problem):
    all_arcs = list(arcs(problem))
    states = 2 * problem["phases"] * problem["nodes"]
    counted = [number for number, line in enumerate(problem["lines"]) if line["units"] is not None]
    variables = len(all_arcs) + len(counted)
    rows, columns, entries = [], [], []
    for column, (start, end, _, number) in enumerate(all_arcs):
        rows.append(start), columns.append(column), entries.append(1.0)
        if end < states:
            rows.append(end), columns.append(column), entries.append(-1.0)
        if number in counted:
            rows.append(states + counted.index(number)), columns.append(column), entries.append(1.0)
    cost = [arc[2] for arc in all_arcs]
    right = np.zeros(states + len(counted))
    right[0] = 1.0
    upper = np.ones(variables)
    for index, number in enumerate(counted):
        line = problem["lines"][number]
        rows.append(states + index), columns.append(len(all_arcs) + index), entries.append(1.0)
        cost.append(problem["missing"] * line["portions"])
        right[states + index] = upper[len(all_arcs) + index] = line["units"]
    matrix = coo_array((entries, (rows, columns)), shape=(states + len(counted), variables)).tocsr()
    return milp(
        np.array(cost),
        constraints=LinearConstraint(matrix, right, right),
        bounds=Bounds(0, upper),
        integrality=np.ones(variables),
        options={"mip_rel_gap": 0.0},
    )


if __name__ == "__main__":
    for line in sys.stdin:
        result = solve(json.loads(line))
        print(result.fun if result.status == 0 else "nan", int(result.status == 0))
