"""HiGHS as everything here uses it: silent, one thread, a fixed seed, so that plans repeat byte for byte."""

from __future__ import annotations

import highspy

SETTINGS: dict[str, bool | int | float | str] = {"output_flag": False, "threads": 1, "random_seed": 0}


class QuietSolver(highspy.Highs):
    """HiGHS without its callbacks: setting them up prints a greeting before it can be told to be quiet."""

    def __init__(self, **options: bool | int | float | str) -> None:
        super(highspy.Highs, self).__init__()
        for option, value in {**SETTINGS, **options}.items():
            self.setOptionValue(option, value)
