#!/usr/bin/python3
"""An independent solver of the charge balance: plain bisection, for the tests.

Reads a file of lines and prints, for each `sample`, the pH and the strong base (mol/L) to the end
point. Lines, in mol/L:
    medium A PKW            Davies' A and minus the logarithm of the ionic product of water
    endpoint PH
    acid NAME PK...         thermodynamic constants in this medium
    ion NAME CHARGE
    sample REST NAME=AMOUNT...
"""
import math
import sys

acids, charges = {}, {}
a = pkw = endpoint = 0.0


def log_gamma(charge, ionic):
    i = min(ionic, 0.5)
    return -a * charge**2 * (math.sqrt(i) / (1 + math.sqrt(i)) - 0.3 * i)


def bisect(function, low, high, turns):
    """The zero of a function that falls from `low` to `high`."""
    for _ in range(turns):
        middle = (low + high) / 2
        if function(middle) > 0:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def species(sample, ph, ionic):
    """(charge, concentration) of everything that takes part in proton exchange."""
    gammas = [log_gamma(z, ionic) for z in range(4)]
    found = [(1, 10 ** (-ph - gammas[1])), (-1, 10 ** (ph - pkw - gammas[1]))]
    for name, amount in sample.items():
        if name not in acids:
            continue
        # Logarithm of [A^z-]/[H_nA]: activities, then each divided by its coefficient.
        logs, total = [0.0], 0.0
        for z, pk in enumerate(acids[name], 1):
            total += ph - pk
            logs.append(total - gammas[z])
        weights = [10**x for x in logs]
        whole = sum(weights)
        found += [(-z, amount * w / whole) for z, w in enumerate(weights)]
    return found


def state(sample, rest, ph, titrate):
    """Net charge without titrant at this pH, at the ionic strength that agrees with itself."""
    strong = [(charges[n], c) for n, c in sample.items() if n in charges]
    strong.append((math.copysign(1, rest), abs(rest)))

    def all_ions(ionic):
        ions = species(sample, ph, ionic) + strong
        net = sum(z * c for z, c in ions)
        if titrate:
            ions.append((1, -net))
        return net, 0.5 * sum(z * z * abs(c) for z, c in ions)

    ionic = bisect(lambda i: all_ions(i)[1] - i, 0.0, 4.0, 44)
    return all_ions(ionic)[0]


with open(sys.argv[1], encoding="utf-8") as lines:
    for line in lines:
        word, *rest = line.split()
        if word == "medium":
            a, pkw = map(float, rest)
        elif word == "endpoint":
            endpoint = float(rest[0])
        elif word == "acid":
            acids[rest[0]] = [float(x) for x in rest[1:]]
        elif word == "ion":
            charges[rest[0]] = int(rest[1])
        elif word == "sample":
            unnamed = float(rest[0])
            sample = {n: float(c) for n, c in (x.split("=") for x in rest[1:])}
            ph = bisect(lambda p: state(sample, unnamed, p, False), 0.0, 14.0, 32)
            print(repr(ph), repr(-state(sample, unnamed, endpoint, True)))
        else:
            raise SystemExit("cannot read " + line)
