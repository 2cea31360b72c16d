#!/usr/bin/python3
"""Prints the molar mass, g/mol, of each formula given, one a line.

From the tables of the Python package periodictable (Debian: python3-periodictable), which shares
nothing with units/atomic_weights.hpp. Formulas as there: CuSO4·5H2O, (NH4)2HPO4.
"""
import sys

import periodictable

for text in sys.argv[1:]:
    print(repr(periodictable.formula(text.replace("·", "+")).mass))
