"""A body left alone in the water: it rises or sinks until it reaches the surface or the bottom.

All draws step together, each with its own step (Dormand and Prince's pair of orders 5 and 4). A step never runs
across a bag that becomes full, the surface or the bottom: it is cut so that it lands there.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from parbuckle.physics.forces import Body, acceleration, full_depths, gas_pressure_at, gas_volumes, net_lift, whole
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Bools, Floats, Frozen, Numbers

_A = (
    (1 / 5,),
    (3 / 40, 9 / 40),
    (44 / 45, -56 / 15, 32 / 9),
    (19372 / 6561, -25360 / 2187, 64448 / 6561, -212 / 729),
    (9017 / 3168, -355 / 33, 46732 / 5247, 49 / 176, -5103 / 18656),
    (35 / 384, 0.0, 500 / 1113, 125 / 192, -2187 / 6784, 11 / 84),
)
_E = (71 / 57600, 0.0, -71 / 16695, 71 / 1920, -17253 / 339200, 22 / 525, -1 / 40)
_TOLERANCE = 1e-4  # relative error of a step in speed; the end is then right to about 1e-4
_STILL = 1e-4  # m/s below which the error is taken as absolute
_NEAR = 1e-4  # m: how near to an event a step has to land
_FIRST = 0.05  # s
_MOST_STEPS = 5000

SURFACE, BOTTOM, STAYS = 1, 2, 0
"""How a rise ends: at the surface, back on the bottom, or it never left."""


@dataclass(frozen=True)
class Rise(Frozen):
    """What happened on the way, one column for each draw.

    Parameters
    ----------
    end : Floats
        SURFACE, BOTTOM or STAYS, shape (n,).
    time : Floats
        Time to the end, s, shape (n,); 0 where it stays.
    speed : Floats
        Speed upward at the end, m/s, shape (n,).
    steps_time, steps_depth, steps_speed : Floats
        Every step taken, shape (steps, n); a column that has ended repeats its last values.
    """

    end: Floats
    time: Floats
    speed: Floats
    steps_time: Floats
    steps_depth: Floats
    steps_speed: Floats

    def take(self, lanes: slice | Bools) -> Rise:
        """Give the rise of some of the draws.

        Parameters
        ----------
        lanes : slice or Bools
            Which columns.

        Returns
        -------
        Rise
            The same fields, fewer columns.
        """
        return Rise(*(getattr(self, name)[..., lanes] for name in self.__dataclass_fields__))

    def depth_at(self, times: Floats) -> Floats:
        """Give the depth at chosen times, by cubic interpolation between the steps.

        Parameters
        ----------
        times : Floats
            s, shape (m,).

        Returns
        -------
        Floats
            m, shape (m, n).
        """
        t = np.asarray(times)[:, None]
        before = (self.steps_time[:, None, :] <= t).sum(axis=0) - 1
        i = np.clip(before, 0, len(self.steps_time) - 2)
        lanes = np.arange(self.time.size)
        t0, t1 = self.steps_time[i, lanes], self.steps_time[i + 1, lanes]
        z0, z1 = self.steps_depth[i, lanes], self.steps_depth[i + 1, lanes]
        r0, r1 = self.steps_speed[i, lanes], self.steps_speed[i + 1, lanes]
        h = np.where(t1 > t0, t1 - t0, 1.0)
        out = _hermite(np.clip((t - t0) / h, 0.0, 1.0), h, z0, z1, r0, r1)
        return np.where((t >= t1) | (t1 <= t0), z1, out)


def left_alone(
    body: Body,
    depth: Floats,
    surface: Floats,
    bottom: Floats,
    rise: Floats | None = None,
    tolerance: float = _TOLERANCE,
) -> Rise:
    """Let a body go and follow it to the surface or back to the bottom.

    Parameters
    ----------
    body : Body
        What moves; its gas is counted at ``body.gas_pressure``.
    depth : Floats
        Depth of the load at the start, m, shape (n,).
    surface : Floats
        Depth of the load at which it has come up (the crown at the surface), m, shape (n,).
    bottom : Floats
        Depth of the load at which it is on the bottom, m, shape (n,).
    rise : Floats, optional
        Speed upward at the start, m/s, shape (n,); at rest when left out.
    tolerance : float
        Relative error allowed in each step.

    Returns
    -------
    Rise
        Ends, times, speeds and steps.

    Raises
    ------
    RangeError
        If it starts above the surface mark or below the bottom, or does not end.

    Notes
    -----
    Pair of formulas: J. R. Dormand and P. J. Prince, J. Comput. Appl. Math. 6 (1980) 19-26.
    """
    if np.any(depth < surface) or np.any(depth > bottom):
        raise RangeError("the load starts above the surface mark or below the bottom")
    return _Run(body, depth, surface, bottom, rise, tolerance).go()


class _Run:
    """The state of one call of left_alone, all columns; ``lanes`` are the columns still under way."""

    def __init__(
        self, body: Body, depth: Floats, surface: Floats, bottom: Floats, rise: Floats | None, tolerance: float
    ) -> None:
        n = depth.size
        self.surface, self.bottom, self.tolerance = surface, bottom, tolerance
        self.t, self.z = np.zeros(n), depth.astype(float)
        self.r = np.zeros(n) if rise is None else rise.astype(float)
        self.h, self.end = np.full(n, _FIRST), np.zeros(n)
        pressure = gas_pressure_at(body, self.z)
        still = (self.r == 0.0) & (net_lift(body, pressure, whole(gas_volumes(body, pressure))) <= 0.0)
        resting = still & (self.z >= bottom - _NEAR)
        self.lanes = np.flatnonzero(~resting).astype(np.int64)
        self.body = body if self.lanes.size == n else body.take(self.lanes)
        self.a = acceleration(self.body, self.z[self.lanes], self.r[self.lanes])
        self.kinks = full_depths(self.body)
        self.steps = [(self.t.copy(), self.z.copy(), self.r.copy())]

    def go(self) -> Rise:
        for _ in range(_MOST_STEPS):
            if not self.lanes.size:
                break
            self._step()
        else:
            raise RangeError("the ascent does not end: the load hovers; give it a surplus")
        if len(self.steps) == 1:
            self.steps.append(self.steps[0])
        t, z, r = (np.stack(column) for column in zip(*self.steps, strict=True))
        return Rise(self.end, self.t, self.r, t, z, r)

    def _step(self) -> None:
        i = self.lanes
        z, r, h = self.z[i], self.r[i], self.h[i]
        z1, r1, a1, error = _try(self.body, z, r, self.a, h, self.tolerance)
        good = error <= 1.0
        mark, hits = self._first_event(z, z1, i)
        cut = good & hits & (np.abs(z1 - mark) > _NEAR)
        keep = good & ~cut
        growth = np.clip(0.9 * np.maximum(error, 1e-10) ** -0.2, 0.2, 5.0)
        next_h = np.where(good, h * np.maximum(growth, 1.0), h * np.minimum(growth, 0.9))
        if cut.any():
            share = _landing(z[cut], z1[cut], r[cut], r1[cut], h[cut], mark[cut])
            next_h[cut] = np.maximum(h[cut] * share, 1e-12)
        k = i[keep]
        self.t[k] += h[keep]
        self.z[k], self.r[k], self.h[i] = z1[keep], r1[keep], next_h
        self.a = np.where(keep, a1, self.a)
        if keep.any():
            self.steps.append((self.t.copy(), self.z.copy(), self.r.copy()))
        self._finish(keep)

    def _first_event(self, z: Floats, z1: Floats, i: Numbers) -> tuple[Floats, Bools]:
        """Give the first mark that a step would cross and whether there is one (rising or sinking)."""
        top, floor = self.surface[i], self.bottom[i]
        inside = (self.kinks < z - _NEAR) & (self.kinks > z1)
        up = np.where(inside, self.kinks, -np.inf).max(axis=0, initial=-np.inf)
        mark = np.where(z1 < z, np.maximum(up, top), floor)
        hits = np.where(z1 < z, z1 <= mark, z1 >= floor) & (np.abs(z1 - z) > 0.0)
        return mark, hits

    def _finish(self, keep: Bools) -> None:
        i = self.lanes
        up = keep & (self.z[i] <= self.surface[i] + _NEAR) & (self.r[i] > 0.0)
        down = keep & (self.z[i] >= self.bottom[i] - _NEAR) & (self.r[i] < 0.0)
        self.end[i[up]], self.end[i[down]] = SURFACE, BOTTOM
        over = up | down
        if over.any():
            stay = ~over
            self.lanes, self.body = i[stay], self.body.take(stay)
            self.a, self.kinks = self.a[stay], self.kinks[:, stay]


def _try(
    body: Body, z: Floats, r: Floats, a: Floats, h: Floats, tolerance: float
) -> tuple[Floats, Floats, Floats, Floats]:
    """Take one trial step; give depth, speed, acceleration at its end and the error in units of the tolerance."""
    dz, dr = [-r], [a]
    zs, rs = z, r
    for row in _A:
        zs = z + h * _sum(row, dz)
        rs = r + h * _sum(row, dr)
        dz.append(-rs)
        dr.append(acceleration(body, zs, rs))
    slip = np.abs(h * _sum(_E, dr)) / (_STILL + np.maximum(np.abs(r), np.abs(rs)))
    shift = np.abs(h * _sum(_E, dz))
    return zs, rs, dr[-1], np.maximum(slip, shift) / tolerance


def _sum(weights: tuple[float, ...], slopes: list[Floats]) -> Floats:
    total = weights[0] * slopes[0]
    for w, s in zip(weights[1:], slopes[1:], strict=True):
        if w:
            total = total + w * s
    return total


def _hermite(s: Floats, h: Floats, z0: Floats, z1: Floats, r0: Floats, r1: Floats) -> Floats:
    return np.asarray(z0 + (z1 - z0) * (s * s * (3 - 2 * s)) - h * (s * (1 - s)) * (r0 * (1 - s) - r1 * s))


def _landing(z0: Floats, z1: Floats, r0: Floats, r1: Floats, h: Floats, mark: Floats) -> Floats:
    """Give the share of the step at which the cubic through its ends meets the mark (Newton, kept inside the step)."""
    s = (z0 - mark) / (z0 - z1)
    for _ in range(4):
        miss = _hermite(s, h, z0, z1, r0, r1) - mark
        slope = 6 * s * (1 - s) * (z1 - z0) - h * (r0 * (1 - s) * (1 - 3 * s) + r1 * s * (3 * s - 2))
        s = np.clip(s - miss / np.where(slope == 0.0, z1 - z0, slope), 1e-6, 1.0)
    return np.asarray(s)
