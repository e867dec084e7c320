"""A law of detection as a table over track length per area, averaged over the draws of the sweep width."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats, Frozen
from parbuckle.search.detection import pod

_MOST_COVERAGE = 16.0  # where the table ends: 1 - exp(-16) lacks 1e-7
_ROWS = 1200
_GROUPS = 128  # of neighbouring sweep widths, each at its mean
_LEAST_SHARE = 0.25  # of the mean: narrower sweeps do not stretch the table


@dataclass(frozen=True)
class LawTable(Frozen):
    """Chance of detection against track length per area, concave: the hull of the averaged law.

    Parameters
    ----------
    effort : Floats
        Track length per area, 1/m, rising from zero, shape (k,).
    pod : Floats
        Chance, shape (k,).
    slope : Floats
        Slope of each piece, m, falling; the last is zero, shape (k,).
    """

    effort: Floats
    pod: Floats
    slope: Floats

    def wanted(self, price: Floats) -> Floats:
        """Give the effort up to which the law still pays its price.

        Parameters
        ----------
        price : Floats
            Least slope, m, above zero, any shape.

        Returns
        -------
        Floats
            Track length per area, 1/m.
        """
        falling = -self.slope
        return self.effort[np.minimum(np.searchsorted(falling, -price, side="left"), self.effort.size - 1)]

    def pod_at(self, effort: Floats) -> Floats:
        """Give the chance at an effort; beyond the table's end the chance at its end, which is lower than the law's.

        Parameters
        ----------
        effort : Floats
            Track length per area, 1/m, any shape.

        Returns
        -------
        Floats
            Chance.
        """
        return np.interp(effort, self.effort, self.pod)


def law_table(law: str, sweep_width: Floats, p0: float = 1.0) -> LawTable:
    """Average a law over draws of the sweep width, and take its concave hull.

    b(x) = mean_k pod(law, W_k x).

    Parameters
    ----------
    law : str
        One of ``detection.LAWS``.
    sweep_width : Floats
        Draws of W, m, above zero, shape (n,).
    p0 : float
        Chance on the line.

    Returns
    -------
    LawTable
        Up to a coverage of 16 of the smallest sweep width that is not below a quarter of the mean.

    Raises
    ------
    RangeError
        For a sweep width that is not above zero, an unknown law or a p0 that it does not take.

    Examples
    --------
    >>> round(float(law_table("random", np.array([2.0])).pod_at(np.array([0.5]))[0]), 4)
    0.6321
    """
    widths, counts = np.unique(np.atleast_1d(np.asarray(sweep_width, dtype=np.float64)), return_counts=True)
    if not float(widths[0]) > 0.0:
        raise RangeError(f"sweep width: given {widths[0]:g} m, must be above zero")
    covered, chance = _table(law, p0)
    groups = _grouped(widths, counts / counts.sum())
    if len(groups) == 1:
        effort, value = covered / groups[0][0], chance
    else:
        mean = sum(w * part for w, part in groups)
        end = _MOST_COVERAGE / max(groups[0][0], _LEAST_SHARE * mean)
        effort = np.union1d(end * np.linspace(0.0, 1.0, _ROWS) ** 2, [p0 / w for w, _ in groups])
        value = np.sum([part * np.interp(w * effort, covered, chance) for w, part in groups], axis=0)
    keep = _hull(effort, value)
    x, y = effort[keep], value[keep]
    return LawTable(x, y, np.append(np.diff(y) / np.diff(x), 0.0))


def _grouped(width: Floats, weights: Floats) -> list[tuple[float, float]]:
    """Groups of neighbouring widths, each at its own mean."""
    parts = np.array_split(np.arange(width.size), min(width.size, _GROUPS))
    return [(float(np.average(width[k], weights=weights[k])), float(weights[k].sum())) for k in parts]


@lru_cache(maxsize=32)
def _table(law: str, p0: float) -> tuple[Floats, Floats]:
    """Coverage and chance; closer together where coverage is small; the corner of the definite range is a row."""
    c = _MOST_COVERAGE * np.linspace(0.0, 1.0, _ROWS) ** 2
    if law == "definite range":
        c = np.array([0.0, p0, _MOST_COVERAGE])
    return c, pod(law, c, p0)


def _hull(x: Floats, y: Floats) -> list[int]:
    """Indices of the upper concave hull."""
    kept: list[int] = []
    xs, ys = x.tolist(), y.tolist()
    for k in range(len(xs)):
        while len(kept) > 1:
            a, b = kept[-2], kept[-1]
            if (ys[b] - ys[a]) * (xs[k] - xs[b]) > (ys[k] - ys[b]) * (xs[b] - xs[a]):
                break
            kept.pop()
        kept.append(k)
    return kept
