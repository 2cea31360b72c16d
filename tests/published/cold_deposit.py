#!/usr/bin/python3
"""Bitartrate falling out of wines, by another method: Newton on the whole system at once (mpmath), for
the tests. Unknowns are pH, ionic strength and what falls out; the equations are charge balance, the
definition of the ionic strength, and ion product = solubility product.

Reads a file of lines and prints, for each `sample`, what falls out (mol/L) and the pH. Lines, mol/L:
    medium A PKW            Davies' A and minus the logarithm of the ionic product of water
    product KSP             of potassium bitartrate, in activities
    acid NAME PK...         thermodynamic constants in this medium
    ion NAME CHARGE
    sample REST NAME=AMOUNT...
"""
import sys

from mpmath import findroot, matrix, mp, mpf, sqrt

mp.dps = 30
acids, charges = {}, {}
a = pkw = product = mpf(0)


def ions_of(sample, rest, ph, ionic):
    """(charge, concentration) of every ion, and the bitartrate ion with its activity coefficient."""
    davies = sqrt(ionic) / (1 + sqrt(ionic)) - mpf("0.3") * ionic
    gamma = [mpf(10) ** (-a * z * z * davies) for z in range(4)]
    proton = mpf(10) ** -ph
    found = [(1, proton / gamma[1]), (-1, mpf(10) ** -pkw / proton / gamma[1])]
    bitartrate = mpf(0)
    for name, amount in sample.items():
        if name in charges:
            found.append((charges[name], amount))
            continue
        weights = [mpf(1)]
        for pk in acids[name]:
            weights.append(weights[-1] * mpf(10) ** -pk / proton)
        weights = [w / gamma[z] for z, w in enumerate(weights)]
        whole = sum(weights)
        for z, w in enumerate(weights):
            found.append((-z, amount * w / whole))
        if name == "tartaric":
            bitartrate = amount * weights[1] / whole
    found.append((1 if rest >= 0 else -1, abs(rest)))
    return found, bitartrate, gamma[1]


def solve(sample, rest):
    def off(ph, ionic, out):
        left = dict(sample)
        left["potassium"] -= out
        left["tartaric"] -= out
        ions, bitartrate, gamma = ions_of(left, rest, ph, ionic)
        return [1000 * sum(z * c for z, c in ions),
                1000 * (sum(z * z * c for z, c in ions) / 2 - ionic),
                left["potassium"] * bitartrate * gamma**2 / product - 1]

    # From nothing fallen out the product falls along a convex curve, so that Newton does not overshoot.
    found = findroot(lambda *x: matrix(off(*x)), (mpf("3.4"), mpf("0.05"), mpf(0)), tol=1e-36, maxsteps=60)
    return found[2], found[0]


with open(sys.argv[1], encoding="utf-8") as lines:
    for line in lines:
        word, *rest = line.split()
        if word == "medium":
            a, pkw = map(mpf, rest)
        elif word == "product":
            product = mpf(rest[0])
        elif word == "acid":
            acids[rest[0]] = [mpf(x) for x in rest[1:]]
        elif word == "ion":
            charges[rest[0]] = int(rest[1])
        elif word == "sample":
            amounts = {n: mpf(c) for n, c in (x.split("=") for x in rest[1:])}
            out, ph = solve(amounts, mpf(rest[0]))
            print(mp.nstr(out, 17), mp.nstr(ph, 17))
        else:
            raise SystemExit("cannot read " + line)
