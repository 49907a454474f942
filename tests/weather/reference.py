"""Degree days reckoned anew, without a closed form: the temperature of a day as a curve over time,
the rate of growth at each temperature, and SciPy's adaptive quadrature between the places where the
rate has a corner, which a root finder looks for."""

import functools
import math

from scipy.integrate import quad
from scipy.optimize import brentq

WAVES = ["single-triangle", "single-sine", "double-triangle", "double-sine"]
AVERAGES = ["simple-average", "clamp-both", "clamp-minimum"]


def temperature(shape, low, high, time):
    """From the low at time 0 to the high at time 1."""
    if shape == "triangle":
        return low + (high - low) * time
    return (low + high) / 2 - (high - low) / 2 * math.cos(math.pi * time)


def rate(degrees, base, upper, cutoff):
    """Growth at a temperature, in degrees."""
    if degrees <= base:
        return 0.0
    if cutoff == "none" or degrees <= upper:
        return degrees - base
    if cutoff == "horizontal":
        return upper - base
    if cutoff == "intermediate":
        return (upper - base) - (degrees - upper)
    return 0.0


@functools.lru_cache(maxsize=None)
def half_day(shape, low, high, base, upper, cutoff):
    """Mean growth while the temperature goes from one extreme to the other, the lower first."""
    low, high = min(low, high), max(low, high)
    corners = [0.0]
    for threshold in [base] + ([upper] if cutoff != "none" else []):
        if low < threshold < high:
            corners.append(brentq(lambda t: temperature(shape, low, high, t) - threshold, 0.0, 1.0,
                                  xtol=1e-14))
    corners.append(1.0)
    total = 0.0
    for begin, end in zip(corners, corners[1:]):
        # Just inside, so that a jump of the rate at a corner is on neither side.
        total += quad(lambda t: rate(temperature(shape, low, high, t), base, upper, cutoff),
                      begin, end, epsabs=1e-9, epsrel=1e-9)[0]
    return max(0.0, total)


def of_day(method, low, high, next_low, base, upper=None, cutoff="none"):
    if method == "simple-average":
        mean = (low + high) / 2
        return max(0.0, (min(mean, upper) if cutoff == "horizontal" else mean) - base)
    if method in AVERAGES:
        low = max(low, base)
        if method == "clamp-both":
            high = max(high, base)
        if cutoff == "horizontal":
            low, high = min(low, upper), min(high, upper)
        return max(0.0, (low + high) / 2 - base)
    double, shape = method.split("-")
    second = next_low if double == "double" else low
    return (half_day(shape, low, high, base, upper, cutoff) +
            half_day(shape, second, high, base, upper, cutoff)) / 2


def totals(days, method, base, upper=None, cutoff="none"):
    """For rows of (date, low, high) of one season: a list of (date, of the day, total). The last
    row serves as the next day of the one before only when it is marked by a date of None."""
    result, total = [], 0.0
    for (date, low, high), following in zip(days, days[1:] + [None]):
        if date is None:
            break
        next_low = following[1] if following else low
        day = of_day(method, low, high, next_low, base, upper, cutoff)
        total += day
        result.append((date, day, total))
    return result
