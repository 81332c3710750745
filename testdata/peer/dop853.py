"""Follows one chain of pendulums with SciPy's DOP853, for `make bench-peer`.

Reads one JSON object on standard input: gravity, first moments s, moments of
inertia j, pairs [i, j, a, b] of ancestor and descendant, dampers, parents
(-1 for the wall), start angles and the time to follow; prints its end state,
the time taken and the number of right-hand sides, for each tolerance asked.
The equations are those of objective/motion, written out pair by pair.
"""

import json
import sys
import time

import numpy as np
from scipy.integrate import solve_ivp


def right_hand_side(rig):
    n = len(rig["s"])
    weight = rig["gravity"] * np.array(rig["s"])
    inertia = np.diag(np.array(rig["j"]))
    pairs = rig["pairs"]
    i = np.array([p[0] for p in pairs], dtype=int)
    j = np.array([p[1] for p in pairs], dtype=int)
    a = np.array([p[2] for p in pairs])
    b = np.array([p[3] for p in pairs])
    damping = np.zeros((n, n))
    for k, (c, p) in enumerate(zip(rig["damper"], rig["parent"])):
        damping[k, k] += c
        if p >= 0:
            damping[p, p] += c
            damping[k, p] -= c
            damping[p, k] -= c

    def slope(_, x):
        phi, rate = x[:n], x[n:]
        d = phi[j] - phi[i]
        sin, cos = np.sin(d), np.cos(d)
        m = inertia.copy()
        m[i, j] = m[j, i] = a * sin - b * cos
        by = np.zeros((n, n))
        by[i, j] = a * cos + b * sin
        by[j, i] = -by[i, j]
        force = -weight * np.sin(phi) - damping @ rate - by @ (rate * rate)
        return np.concatenate([rate, np.linalg.solve(m, force)])

    return slope


def main():
    rig = json.load(sys.stdin)
    slope = right_hand_side(rig)
    start = np.concatenate([rig["start"], np.zeros(len(rig["start"]))])
    runs = []
    for tolerance in rig["tolerances"]:
        began = time.perf_counter()
        out = solve_ivp(slope, (0, rig["until"]), start, method="DOP853", rtol=tolerance, atol=tolerance * 0.05)
        runs.append({
            "tolerance": tolerance,
            "seconds": time.perf_counter() - began,
            "evaluations": int(out.nfev),
            "end": out.y[:, -1].tolist(),
        })
    json.dump({"runs": runs}, sys.stdout)


if __name__ == "__main__":
    main()
