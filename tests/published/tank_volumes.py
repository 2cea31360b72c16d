#!/usr/bin/python3
"""What vessels hold up to a dip, by adaptive quadrature in 30 digits (mpmath), for the tests.

Reads a file of lines "SHAPE NUMBER... DIP", metres, and prints litres, a line each:
    upright DIAMETER WALL BOTTOM DEPTH DIP      BOTTOM: flat, cone, ellipsoid, shallow, deep (DEPTH 0 for dishes)
    lying WIDTH HEIGHT LENGTH END DIP           an ellipse, ends half an ellipsoid so deep
    box LENGTH WIDTH HEIGHT SLOPE DIP
    barrel BULGE HEAD LENGTH DIP                staves are parabolas
All but barrels are cut into level slices; a barrel is cut across its length.
"""
import sys

from mpmath import acos, mp, mpf, pi, quad, sqrt

mp.dps = 30


def slices(area, marks, dip):
    """The integral of `area` from 0 to `dip`, in parts that end where it has a kink."""
    ends = sorted({mpf(0), dip, *(m for m in marks if 0 < m < dip)})
    return quad(area, ends) if dip > 0 else mpf(0)


def dish(d, crown, knuckle):
    """Radius by height of a torispherical bottom, its depth, and where crown and knuckle touch."""
    big, small = crown * d, knuckle * d
    out = d / 2 - small
    deep = big - sqrt((big - small) ** 2 - out**2)
    touch = big - big * (big - deep) / (big - small)

    def radius(z):
        return sqrt(2 * big * z - z * z) if z < touch else out + sqrt(small**2 - (deep - z) ** 2)

    return radius, deep, touch


def upright(d, wall, bottom, depth, dip):
    r = d / 2
    if bottom == "flat":
        return slices(lambda z: pi * r**2, [], dip)
    if bottom == "cone":
        return slices(lambda z: pi * (r * min(z / depth, 1)) ** 2, [depth], dip)
    if bottom == "ellipsoid":
        below = lambda z: pi * r**2 * (1 - ((depth - z) / depth) ** 2)
        return slices(lambda z: below(z) if z < depth else pi * r**2, [depth], dip)
    radius, deep, touch = dish(d, *((mpf(1), mpf("0.1")) if bottom == "shallow" else (mpf("0.8"), mpf("0.154"))))
    return slices(lambda z: pi * (radius(z) if z < deep else r) ** 2, [touch, deep], dip)


def lying(w, h, length, end, dip):
    def area(z):
        s = 1 - (2 * z / h - 1) ** 2
        return w * sqrt(max(s, 0)) * length + pi * w / 2 * end * s

    return slices(area, [h / 2], dip)


def box(length, w, h, slope, dip):
    return slices(lambda z: w * length * (min(z / slope, 1) if slope > 0 else 1), [slope], dip)


def barrel(bulge, head, length, dip):
    level = dip - bulge / 2  # over the axis

    def segment(x):
        r = bulge / 2 - (bulge - head) / 2 * (2 * x / length) ** 2
        if level <= -r:
            return mpf(0)
        if level >= r:
            return pi * r**2
        return r**2 * acos(-level / r) + level * sqrt(r**2 - level**2)

    # Where the level meets the stave above or below, the segment has a kink.
    marks = []
    for up in (level, -level):
        part = (bulge / 2 - up) / ((bulge - head) / 2)
        if 0 < part < 1:
            marks.append(sqrt(part) * length / 2)
    ends = sorted({mpf(0), length / 2, *marks})
    return 2 * quad(segment, ends)


for line in open(sys.argv[1]):
    shape, *rest = line.split()
    given = [word if word.isalpha() else mpf(word) for word in rest]
    print(mp.nstr(1000 * globals()[shape](*given), 15))
