#!/usr/bin/python3
"""Blends of least cost or nearest to a profile by scipy.optimize.milp (HiGHS), for the tests.

design_milp.py FOLDER FILE: FOLDER may hold a scipy that is unpacked and not installed; FILE holds a
list of designs as JSON. Prints one line a design: the objective, or "none". Formulated here from the
figures of the lots, and not from the program's own rows.
"""
import json
import sys

sys.path.insert(0, sys.argv[1])
import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp


def objective(design):
    lots = design["lots"]
    n = len(lots)
    names = sorted({name for lot in lots for name in lot["varieties"]})
    wishes = design["profile"]
    # shares, used or not, varieties present or not, and the distance from each wish
    size = 2 * n + len(names) + len(wishes)
    rows, low, high = [], [], []

    def hold(row, least=-np.inf, most=np.inf):
        rows.append(row)
        low.append(least)
        high.append(most)

    def line(values, at=0):
        row = np.zeros(size)
        row[at:at + len(values)] = values
        return row

    figures = {key: np.array([lot["figures"][key] for lot in lots]) for key in lots[0]["figures"]}
    held = {name: np.array([lot["varieties"].get(name, 0) for lot in lots]) for name in names}
    hold(line(np.ones(n)), 1, 1)
    for key, (least, most) in design["bounds"].items():
        hold(line(figures[key]), least, most)
    for i, lot in enumerate(lots):
        most = min(1, lot["volume"] / design["volume"])
        row = line([1], i)
        row[n + i] = -most
        hold(row, most=0)
        row = line([1], i)
        row[n + i] = -design["smallest share"]
        hold(row, 0)
    hold(line(np.ones(n), n), most=design["most lots"])
    for name in names:
        hold(line(held[name]), most=design["each at most"])
        row = line(held[name])
        row[2 * n + names.index(name)] = -0.01
        hold(row, 0)
    hold(line(np.ones(len(names)), 2 * n), design["at least members"])
    cost = np.zeros(size)
    if wishes:
        for i, (key, (wish, step)) in enumerate(wishes.items()):
            away = 2 * n + len(names) + i
            cost[away] = 1
            for sign in (1, -1):
                row = line(sign * figures[key] / step)
                row[away] = -1
                hold(row, most=sign * wish / step)
    else:
        cost[:n] = [lot["price"] * design["volume"] for lot in lots]
    whole = np.zeros(size)
    whole[n:2 * n + len(names)] = 1
    upper = np.where(np.arange(size) < 2 * n + len(names), 1, np.inf)
    found = milp(cost, integrality=whole, bounds=Bounds(0, upper),
                 constraints=LinearConstraint(np.array(rows), low, high), options={"mip_rel_gap": 1e-9})
    if found.status == 2:
        return "none"
    if found.status != 0:
        sys.exit(f"scipy gave up: {found.message}")
    return repr(found.fun)


with open(sys.argv[2], encoding="utf-8") as file:
    for design in json.load(file):
        print(objective(design))
