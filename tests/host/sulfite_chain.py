#!/usr/bin/python3
"""Standard uncertainties of a sulfite chain by the Python package uncertainties (Debian:
python3-uncertainties), which carries derivatives exactly. The model is written anew here:
molecular = free / (1 + 10^(pH - 1.81)); half of an addition stays free up to 20 mg/L; the dose is
held once it is decided. One line: molecular before, dose, then free, total and molecular after.
"""
from uncertainties import ufloat

ph, free, total = ufloat(3.42, 0.03), ufloat(14, 2), ufloat(62, 4)
target, stays_free = 0.6, 0.5


def share(of_ph):
    return 1 / (1 + 10 ** (of_ph - 1.81))


dose = (target / share(ph) - free) / stays_free
held = dose.nominal_value
after = free + stays_free * held
print((free * share(ph)).std_dev, dose.std_dev, after.std_dev, (total + held).std_dev, (after * share(ph)).std_dev)
