"""The tender: what he sees, how late his hands follow, and what he does with the dump, the gas and his fins."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass, replace
from functools import cache
from importlib import resources
from typing import Any

import numpy as np

from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Bools, Floats, Frozen, Numbers

POLICIES = ("hold", "pulls", "crack", "none")
"""What he does with the dump: held open until it is slow; one short pull and a watch; a small steady opening; nothing.

``none`` is for somebody who only fins.
"""

ON_THE_LOAD = -1
"""Number of the bag for somebody who has no dump in his hand."""


@dataclass(frozen=True)
class Tender(Frozen):
    """One diver on the way up, one column for each draw. Speeds are of the load, upward positive.

    He knows three states: too fast from the moment it passes ``vent_above`` until it is under ``vent_until``; too slow
    from the moment it is under ``add_below`` until it is over ``add_until``; otherwise all is well. His hands and
    fins follow each change of state one ``delay`` later.

    Parameters
    ----------
    policy : str
        One of ``POLICIES``.
    bag : int
        Number of the bag whose dump he holds, from 0; ``ON_THE_LOAD`` for none.
    delay : Floats
        Reaction delay, s, shape (n,), 0 to 30.
    vent_above, vent_until : Floats
        Speed above which it is too fast, and below which that is over, m/s, shape (n,).
    add_below, add_until : Floats
        Speed below which it is too slow, and above which that is over, m/s, shape (n,).
    ceiling : Floats
        Speed above which he lets go, m/s, shape (n,); infinite for never.
    dump : Floats
        Discharge coefficient times open area of the dump as he opens it, m2, shape (n,).
    pull : Floats
        Time of one short pull, s, shape (n,); used by ``pulls``.
    watch : Floats
        Time after a pull in which he only watches, s, shape (n,); used by ``pulls``.
    gas : Floats
        Flow of his inflator, free m3/s at the surface pressure, shape (n,); 0 where the cylinder does not go with him.
    thrust : Floats
        Force of his fins while he holds on, N, shape (n,); down when it is too fast, up when it is too slow.
    count : Floats
        He counts depth every so many metres and takes the speed over the last of them, m, shape (n,); 0 where he sees
        the speed itself.
    unanswered : int
        He lets go after so many pulls in a row after which it is not slower; 0 for never.
    """

    policy: str
    bag: int
    delay: Floats
    vent_above: Floats
    vent_until: Floats
    add_below: Floats
    add_until: Floats
    ceiling: Floats
    dump: Floats
    pull: Floats
    watch: Floats
    gas: Floats
    thrust: Floats
    count: Floats
    unanswered: int = 2

    def __post_init__(self) -> None:
        """Check the ranges."""
        super().__post_init__()
        if self.policy not in POLICIES:
            raise RangeError(f"policy of a tender: given {self.policy!r}, allowed {', '.join(POLICIES)}")
        ordered = (self.vent_until < self.vent_above) & (self.add_below < self.add_until)
        ordered &= (self.add_below < self.vent_until) & (self.add_until <= self.vent_above)
        if not ordered.all():
            raise RangeError("speeds of a tender: too slow must lie below too fast, and each must end before it begins")
        low = ("delay", "dump", "gas", "thrust", "count", "watch")
        if any((getattr(self, name) < 0.0).any() for name in low) or (self.delay > _MOST_DELAY).any():
            raise RangeError(f"a tender's {', '.join(low)} cannot be negative, his delay not above {_MOST_DELAY:g} s")
        if self.policy == "pulls" and not ((self.pull > 0.0) & np.isfinite(self.pull + self.watch)).all():
            raise RangeError("a short pull must take some time, and so must the watch end")

    def take(self, lanes: Numbers | Bools | slice) -> Tender:
        """Give the tender for some of the draws only.

        Parameters
        ----------
        lanes : Numbers, Bools or slice
            Which columns.

        Returns
        -------
        Tender
            The same fields, fewer columns.
        """
        columns = [name for name in self.__dataclass_fields__ if isinstance(getattr(self, name), np.ndarray)]
        return replace(self, **{name: getattr(self, name)[lanes] for name in columns})


_MOST_DELAY = 30.0  # s; beyond it nobody is tending


@cache
def people() -> dict[str, dict[str, dict[str, Any]]]:
    """Give the assumed numbers for people: a novice and a practised tender.

    Returns
    -------
    dict
        By person and key: ``default`` (text with its unit and spread), ``kind``, ``mark``, ``source``, ``meaning``. All
        are assumptions and say so.

    Examples
    --------
    >>> people()["practised"]["delay"]["mark"]
    'assumption'
    """
    text = resources.files("parbuckle.data").joinpath("tenders.toml").read_text(encoding="utf-8")
    found: dict[str, dict[str, dict[str, Any]]] = tomllib.loads(text)
    return found
