"""Logged profiles one after the other, in plain floats: the form that is compiled."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from parbuckle.quantity.frozen import Floats

LANES = 16
"""Tissues of one gas."""

BLOCK = 8
"""Samples that are taken together: eight steps of the state Q become one."""

END_SIGNATURE = "void(float64[:, ::1], float64[:, :, ::1], float64[:, ::1])"
"""Types of the arguments of ``end_runner``'s function."""

CEILING_SIGNATURE = "void(float64[:, ::1], float64[:, :, ::1], float64[:, ::1], float64, float64[:, ::1])"
"""Types of the arguments of ``ceiling_runner``'s function."""


def end_runner(digest: int) -> Callable[..., None]:
    """Give the function that takes the state Q of profiles to their ends.

    Its arguments, all by position: pressures, shape (m, samples); state Q, shape (m, gases, 16), changed there; table
    of each gas, shape (gases, 160): E^8, eight rows of C E^7 to C, and E.

    Parameters
    ----------
    digest : int
        Above 0; the compiled form is kept on disk under it.

    Returns
    -------
    callable
        The function.
    """

    def run(pressure: Floats, state: Floats, table: Floats) -> None:
        steps = pressure.shape[1] - 1 if digest > 0 else 0
        whole = steps - steps % 8
        q = np.empty(16)
        for i in range(pressure.shape[0]):
            row = pressure[i]
            for g in range(state.shape[1]):
                t = table[g]
                for k in range(16):
                    q[k] = state[i, g, k]
                for j in range(0, whole, 8):
                    p0, p1, p2, p3 = row[j], row[j + 1], row[j + 2], row[j + 3]
                    p4, p5, p6, p7 = row[j + 4], row[j + 5], row[j + 6], row[j + 7]
                    for k in range(16):
                        low = (t[16 + k] * p0 + t[32 + k] * p1) + (t[48 + k] * p2 + t[64 + k] * p3)
                        high = (t[80 + k] * p4 + t[96 + k] * p5) + (t[112 + k] * p6 + t[128 + k] * p7)
                        q[k] = t[k] * q[k] + (low + high)
                for j in range(whole, steps):
                    for k in range(16):
                        q[k] = t[144 + k] * q[k] + t[128 + k] * row[j]
                for k in range(16):
                    state[i, g, k] = q[k]

    return run


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
