"""The same fit by scipy.optimize.least_squares on a model written anew: one line in a row.

Reads a JSON document on standard input, writes x and the deviations of x.
The isothermal law with Colebrook's friction factor, the rated law of a filter and choked
leaks are written here from their equations; the network solver and the sensitivities of the
program are not used, the readings' covariance is.
"""
import json
import math
import sys

import numpy as np
import scipy.optimize

d = json.load(sys.stdin)


def friction(re, rr):
    if re < 2000:
        return 64 / re
    return scipy.optimize.brentq(
        lambda f: 1 / math.sqrt(f) + 2 * math.log10(rr / 3.7 + 2.51 / (re * math.sqrt(f))), 1e-3, 1)


def pipe(p1, m, length, rough, k=0.0):
    bore = d["bore_m"]
    area = math.pi / 4 * bore * bore
    re = 4 * m / (math.pi * bore * d["viscosity_Pa_s"])
    drop = friction(re, rough / bore) * length / bore + k
    p2 = p1
    for _ in range(60):
        p2 = math.sqrt(p1 * p1 - (m / area) ** 2 * d["rt_J_kg"] * (drop + 2 * math.log(p1 / p2)))
    return p2


def rated(p1, m, loss):
    mu = m / d["rated_kg_s"]
    return math.sqrt(p1 * p1 - 2 * loss * (d["rated_at_Pa"] - loss / 2) * (0.5 * mu * mu + 0.5 * mu))


def predicted(x):
    rough, loss, share = (c * math.exp(s * v) for c, s, v in zip(d["centre"], d["spread"], x))
    leak = share * d["supply_kg_s"]
    out = []
    for r in d["readings"]:
        at = leak * r["at_Pa"] / d["mid_Pa"]
        if r["kind"] == "fall":
            out.append(math.log(at))
        elif r["kind"] == "on-off":
            out.append(math.log(share))
        else:
            m = r["tool_kg_s"] + at
            p = pipe(r["at_Pa"], m, 1, rough)
            p = pipe(rated(p, m, loss), m, 1, rough)
            if r["kind"] == "end":
                p = pipe(pipe(p, m, 60, rough), m, 0, rough, d["elbow_K"])
            out.append(p - d["atmosphere_Pa"])
    return np.array(out)


white = np.linalg.inv(np.linalg.cholesky(np.array(d["covariance"])))
shown = np.array(d["shown"])
fit = scipy.optimize.least_squares(
    lambda x: np.concatenate([white @ (shown - predicted(x)), x]), np.zeros(3), xtol=1e-12, ftol=1e-12, gtol=1e-12)
after = np.linalg.inv(fit.jac.T @ fit.jac)
json.dump({"x": list(fit.x), "deviation": list(np.sqrt(np.diag(after)))}, sys.stdout)
