"""What the rigging stage is asked: the pull on the pick point and the items that carry it."""

from __future__ import annotations

from dataclasses import dataclass

from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats, Frozen

KINDS = ("connector", "sling", "line", "bag", "lift point")
"""Kinds of item; limits of a bag and of a lift point are those of the attachment."""


@dataclass(frozen=True)
class RiggingItem(Frozen):
    """One thing that carries load, with what is marked on it.

    Parameters
    ----------
    id : str
        Its id in the kit, or a name.
    kind : str
        ``connector``, ``sling``, ``line``, ``bag`` or ``lift point``.
    make : str
        What it is, such as ``carabiner``, ``bow shackle``, ``webbing``; empty when not told.
    load : Floats or None
        Pull on this item, N, shape (n,), where it is not the whole pull on the pick point: a bag's own lift, a line's
        own
        tension.
    at_surface : bool
        True when it also carries the weight that is hauled out.
    hitch : str
        ``straight``, ``choke`` or ``basket``; slings only.
    choke_angle : float or None
        Angle of the choke, rad.
    legs : int
        Number of legs.
    spread : float or None
        Distance between the lift points of the legs, or between the sides of a basket, m.
    length : float or None
        Length, m; of one leg when there are several.
    second_length : float or None
        Length of the second leg when the two differ, m.
    off_middle : float
        Centre of gravity off the middle of the spread, m, towards the second leg.
    below : float
        Centre of gravity below the line through the lift points, m.
    limit : float or None
        Marked working limit, N.
    strength : float or None
        Marked breaking strength, N.
    locking : bool or None
        True when a gate can be locked.
    kept : float or None
        Share of its strength that a line's knots or ends keep, over 0 to 1; None: a knot.
    on : str
        The one attachment that it is made fast to; empty when not told.
    """

    id: str
    kind: str
    make: str = ""
    load: Floats | None = None
    at_surface: bool = False
    hitch: str = "straight"
    choke_angle: float | None = None
    legs: int = 1
    spread: float | None = None
    length: float | None = None
    second_length: float | None = None
    off_middle: float = 0.0
    below: float = 0.0
    limit: float | None = None
    strength: float | None = None
    locking: bool | None = None
    kept: float | None = None
    on: str = ""

    def __post_init__(self) -> None:
        """Check the words and the signs."""
        super().__post_init__()
        if self.kind not in KINDS:
            raise RangeError(f"{self.id}: kind {self.kind!r} is not known; allowed: {', '.join(KINDS)}")
        if self.legs < 1:
            raise RangeError(f"{self.id}: {self.legs} legs were given; at least 1 is needed")
        for name in ("spread", "length", "second_length", "limit", "strength"):
            value = getattr(self, name)
            if value is not None and value < 0.0:
                raise RangeError(f"{self.id}: {name} {value:g} was given; it cannot be below 0")


@dataclass(frozen=True)
class RiggingProblem(Frozen):
    """The pull on the pick point under water, the weight hauled out at the surface, and the items.

    Parameters
    ----------
    peak : Floats
        Most that the bags can pull on the pick point, N, shape (n,): their real capacity, or the restrained break-out.
    items : tuple of RiggingItem
        What carries it, in any order.
    least_angle : float
        House rule: flattest sling leg that is allowed, rad from horizontal.
    caution_angle : float
        House rule: a sling leg flatter than this is a caution, rad from horizontal.
    surface : Floats or None
        Weight on leaving the water, N, shape (n,), where the load is hauled out or lifted by a davit; else None.
    sea : str
        ``calm`` or ``waves``: sets the dynamic factor at the surface.
    """

    peak: Floats
    items: tuple[RiggingItem, ...]
    least_angle: float
    caution_angle: float
    surface: Floats | None = None
    sea: str = "calm"
