"""What the rigging stage answers: a row for each item, and what has to be flagged."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from parbuckle.quantity.frozen import Floats, Frozen


@dataclass(frozen=True)
class RiggingRow(Frozen):
    """One item with its load, its limit and the factor between mark and limit.

    Parameters
    ----------
    item : str
        Id of the item.
    kind : str
        Kind of the item.
    load : Floats
        Load on the item, of one leg for a sling, N, shape (n,).
    load_n : float
        High end of the load, N: 95 of 100 draws lie below.
    limit_n : float or None
        Working limit in the way it is used, of one leg for a sling, N; None when nothing is marked.
    factor : float or None
        Design factor where the breaking strength is marked (strength / limit, knot and hitch left out), else the
        share of
        the marked limit that hitch and knot leave.
    source : str
        Where the factor comes from.
    mark : str
        How well that source is known.
    used : float or None
        load_n / limit_n.
    ok : bool or None
        True when the load stays within the limit; None when the limit is not known.
    angle : float or None
        Flattest leg, rad from horizontal; slings with two sides only.
    notes : tuple of str
        What else has to be known, in sentences.
    gate_open_n, cross_n : float or None
        Working limits of a connector with its gate open and pulled across, N, for the basic class of its standard; the
        mark on the body decides.
    locking : bool or None
        For a connector with a gate: whether it is told to lock; None for other kinds.
    shares_with : str
        What else is made fast to the same attachment; empty when nothing.
    """

    item: str
    kind: str
    load: Floats
    load_n: float
    limit_n: float | None
    factor: float | None
    source: str
    mark: str
    used: float | None
    ok: bool | None
    angle: float | None = None
    notes: tuple[str, ...] = ()
    gate_open_n: float | None = None
    cross_n: float | None = None
    locking: bool | None = None
    shares_with: str = ""

    def document(self) -> dict[str, Any]:
        """Give the row as the plan document prints it.

        Returns
        -------
        dict
            item, load_n, limit_n, factor, source, and besides kind, used, ok, angle_rad, notes, gate_open_n, cross_n.
        """
        return {
            "item": self.item,
            "load_n": self.load_n,
            "limit_n": self.limit_n,
            "factor": self.factor,
            "source": f"{self.source} ({self.mark})",
            "kind": self.kind,
            "used": self.used,
            "ok": self.ok,
            "angle_rad": self.angle,
            "notes": list(self.notes),
            "gate_open_n": self.gate_open_n,
            "cross_n": self.cross_n,
        }


@dataclass(frozen=True)
class Hint(Frozen):
    """Something about one item that a finding should say.

    Parameters
    ----------
    code : str
        Code of the finding.
    item : str
        Id of the item; ids joined by " and " where two share.
    value : float or None
        What was found: N, or rad for an angle; None when nothing is marked.
    limit : float or None
        What is allowed, in the same unit.
    """

    code: str
    item: str
    value: float | None
    limit: float | None


@dataclass(frozen=True)
class RiggingResult(Frozen):
    """All rows, what has to be flagged, and the sources.

    Parameters
    ----------
    rows : tuple of RiggingRow
        One for each item, in the order given.
    hints : tuple of Hint
        What findings should say: over_limit_sling, over_limit_connector, over_limit_line, over_limit_attachment (bags),
        over_limit_lift_point, connector_unlocked, connector_unmarked, strength_unmarked, shared_attachment,
        flat_sling_refused (under the least angle), flat_sling (under the caution).
    sources : tuple of str
        Sources of all factors used.
    """

    rows: tuple[RiggingRow, ...]
    hints: tuple[Hint, ...]
    sources: tuple[str, ...]

    @property
    def sling_angle(self) -> float | None:
        """The flattest sling leg, rad from horizontal; None when no sling has two sides."""
        angles = [row.angle for row in self.rows if row.angle is not None]
        return min(angles) if angles else None
