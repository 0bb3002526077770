"""Nearest values of a series, by the package `eseries` (https://pypi.org/project/eseries/).

Reads lines of a series' name and a resistance in ohms; prints for each the nearest value, of two that are equally
near (to one part in a million million) the lower.
"""

import sys

import eseries

for line in sys.stdin:
    name, ohms = line.split()
    series, ohms = eseries.ESeries[name], float(ohms)
    below = eseries.find_less_than_or_equal(series, ohms)
    above = eseries.find_greater_than_or_equal(series, ohms)
    low, high = ohms - below, above - ohms
    if abs(low - high) <= 1e-12 * ohms:
        print(below)
    else:
        print(eseries.find_nearest(series, ohms))
