"""Logged profiles one after the other, in plain floats: the form that is compiled."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from parbuckle.quantity.frozen import Floats

LANES = 16
"""Tissues of one gas."""

CEILING_SIGNATURE = "void(float64[:, ::1], float64[:, :, ::1], float64[:, ::1], float64, float64[:, ::1])"
"""Types of the arguments of ``ceiling_runner``'s function."""


def ceiling_runner(digest: int) -> Callable[..., None]:
    """Give the function that follows profiles step by step and keeps the largest excess of each tissue.

    Its arguments, all by position: pressures less water vapour, shape (m, samples); state Q, shape (m, 2, 16), which
    ends as pressures in the tissues; table, shape (5, 32): E, C, B with the shares in them, and coefficients a and b,
    nitrogen before helium; gradient factor; largest tolerated pressure less pressure, shape (m, 16), changed there.

    Parameters
    ----------
    digest : int
        Above 0; the compiled form is kept on disk under it.

    Returns
    -------
    callable
        The function.
    """

    def run(lung: Floats, state: Floats, table: Floats, factor: float, above: Floats) -> None:
        rest = (1.0 - factor) if digest > 0 else 1.0
        last = lung.shape[1] - 1
        t = table.copy().reshape(160)
        x = np.empty(48)  # nitrogen, helium, largest excess: one array, so that the loop over tissues goes side by side
        for i in range(lung.shape[0]):
            row = lung[i]
            for k in range(16):
                x[k], x[16 + k], x[32 + k] = state[i, 0, k], state[i, 1, k], above[i, k]
            for j in range(last):
                before, now = row[j], row[j + 1]
                for k in range(16):
                    nitrogen = t[k] * x[k] + t[32 + k] * before
                    helium = t[16 + k] * x[16 + k] + t[48 + k] * before
                    first, second = nitrogen + t[64 + k] * now, helium + t[80 + k] * now
                    held = first + second
                    share = second / held
                    a = t[96 + k] + (t[112 + k] - t[96 + k]) * share
                    b = t[128 + k] + (t[144 + k] - t[128 + k]) * share
                    excess = (held - factor * a) * b / (factor + rest * b) - now
                    top = x[32 + k]
                    x[k], x[16 + k], x[32 + k] = nitrogen, helium, excess if excess > top else top
            for k in range(16):
                state[i, 0, k] = x[k] + t[64 + k] * row[last]
                state[i, 1, k] = x[16 + k] + t[80 + k] * row[last]
                above[i, k] = x[32 + k]

    return run
