"""The normal law, as far as it is needed: chances, and what is left of a spread when all above is cut off.

Source: the moments of a normal variable cut off from above (censored), as in any table of its first two
partial moments: with z = (most - mean)/s, E[max(most - x, 0)] = (most - mean) Phi(z) + s phi(z).
"""

from __future__ import annotations

from math import erf, exp, pi, sqrt

import numpy as np

from piecewright.measure.tolerance import PARALLEL

RANGE = 1.959964  # 95 of 100 lie within so many standard deviations of the mean (JCGM 100:2008, G.3).
_STEPS = np.linspace(-8.0, 8.0, 4001)  # Where the normal law is summed up; beyond it has less than 1e-15.


def below(limit: float, mean: float, deviation: float) -> float:
    """The chance that something is below a limit.

    >>> round(below(0.0, 0.0, 1.0), 6), below(1.0, 0.0, 0.0)
    (0.5, 1.0)
    """
    if deviation <= 0.0:
        return 1.0 if mean < limit else 0.0
    return (1 + erf((limit - mean) / deviation / sqrt(2))) / 2


def beyond(limit: float, mean: float, deviation: float) -> float:
    """The chance that something is more than a limit off, above or below zero."""
    return (
        below(-limit, mean, deviation) + 1 - below(limit, mean, deviation)
        if deviation > 0
        else float(abs(mean) > limit)
    )


def cut_off(most: float, mean: float, deviation: float) -> tuple[float, float]:
    """Mean and variance of what is never more than `most`: what lies above is brought down to it.

    >>> mean, variance = cut_off(0.0, 0.0, 1.0)
    >>> round(mean, 6), round(variance, 6)  # -1/sqrt(2 pi), 1/2 - 1/(2 pi)
    (-0.398942, 0.340845)
    """
    if deviation <= 0.0:
        return min(mean, most), 0.0
    room, z = most - mean, (most - mean) / deviation
    chance, density = below(most, mean, deviation), exp(-z * z / 2) / sqrt(2 * pi)
    short = room * chance + deviation * density
    squares = (room * room + deviation * deviation) * chance + room * deviation * density
    return most - short, max(squares - short * short, 0.0)


def both_below(limits: tuple[float, float], correlation: float) -> float:
    """The chance that two normal variables (mean 0, deviation 1) are both below their limits.

    The first is summed up step by step, the second is normal around it. Two that always go together are both
    below the lower limit.

    >>> round(both_below((0.0, 0.0), 0.0), 6), round(both_below((0.0, 0.0), 0.5), 6)  # 1/4 + asin(r)/(2 pi)
    (0.25, 0.333333)
    """
    left = sqrt(max(1 - correlation**2, 0.0))
    if left < PARALLEL:
        one, two = below(limits[0], 0.0, 1.0), below(limits[1], 0.0, 1.0)
        return min(one, two) if correlation > 0 else max(one + two - 1, 0.0)
    steps = np.minimum(_STEPS, limits[0])
    density = np.exp(-steps * steps / 2) / sqrt(2 * pi)
    other = np.array([below(limits[1], correlation * float(u), left) for u in steps])
    return float(np.trapezoid(density * other, steps))
