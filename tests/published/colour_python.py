#!/usr/bin/python3
"""Colours as the Python package colormath has them (Debian: python3-colormath), for the tests.

    difference FILE   each line "L a b L a b": their CIEDE2000 difference
    tables            its observer and its D65, 380, 390 ... 780 nm: x y z D65
    spectrum FILE     each line the transmittances at 380, 390 ... 780 nm: X Y Z (Y of a clear liquid
                      is 100) and L a b, under its D65 and by its 10° observer, with its own white
"""
import sys

import numpy
from colormath import color_constants, color_diff_matrix, spectral_constants
from colormath.color_conversions import convert_color
from colormath.color_objects import LabColor, XYZColor

inside = slice(4, 45)  # its tables run from 340 to 830 nm
light = spectral_constants.REFERENCE_ILLUM_D65[inside]
observer = [getattr(spectral_constants, "STDOBSERV_" + axis + "10")[inside] for axis in "XYZ"]

if sys.argv[1] == "tables":
    for row in zip(*observer, light):
        print(*(repr(float(v)) for v in row))
elif sys.argv[1] == "difference":
    # Its face for single colours asks for a name that numpy has dropped; the kernel below it works.
    for row in numpy.loadtxt(sys.argv[2], ndmin=2):
        print(repr(float(color_diff_matrix.delta_e_cie2000(row[:3], row[3:].reshape(1, 3))[0])))
else:
    scale = 1 / numpy.sum(light * observer[1])
    color_constants.ILLUMINANTS["10"]["d65"] = tuple(scale * numpy.sum(light * axis) for axis in observer)
    for row in numpy.loadtxt(sys.argv[2], ndmin=2):
        xyz = [scale * numpy.sum(row * light * axis) for axis in observer]
        lab = convert_color(XYZColor(*xyz, observer="10", illuminant="d65"), LabColor)
        print(*(repr(100 * float(v)) for v in xyz), *(repr(float(v)) for v in lab.get_value_tuple()))
