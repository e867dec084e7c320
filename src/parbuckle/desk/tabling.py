"""Write the papers of a kit: the table of its bags, and the pool-test sheet."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

from parbuckle import __version__
from parbuckle.desk.briefing import moment
from parbuckle.desk.writing import write_whole
from parbuckle.quantity.errors import CaseError

if TYPE_CHECKING:
    from parbuckle.case.kit import Bag, Kit

_LITRES = 1000.0


def write_table(kit: Path, out: Path, now: datetime | None = None, paper: str = "a4") -> None:
    """Write the table of a kit's own bags as PDF, one page for each water.

    Parameters
    ----------
    kit : Path
        The kit file.
    out : Path
        The file; an older one is replaced only when the new one is whole.
    now : datetime, optional
        When it is written, with its zone: bags past their due date then are left out. Left out: now.
    paper : str
        ``a4`` or ``us-letter``.

    Raises
    ------
    CaseError
        The kit is written wrongly, or has no bag that may be used.
    CallError
        The folder is missing, the file cannot be written, or the paper is not known.
    """
    from parbuckle.brief.bag_table import render_table
    from parbuckle.case.read import read_kit
    from parbuckle.duties.house import load_house
    from parbuckle.plan.bag_table import bag_table

    when = now or datetime.now().astimezone()
    owned = read_kit(kit)
    try:
        table = bag_table(owned, load_house({}), __version__, when)
    except CaseError as error:
        error.file = error.file or kit.name
        raise
    write_whole(out, render_table(table, moment(when), paper))


def write_pool_sheet(kit: Path, out: Path, now: datetime | None = None, paper: str = "a4") -> None:
    """Write the pool-test sheet of a kit as PDF: boxes for what the team measures itself.

    Parameters
    ----------
    kit : Path
        The kit file.
    out : Path
        The file; an older one is replaced only when the new one is whole.
    now : datetime, optional
        When it is written, with its zone. Left out: now.
    paper : str
        ``a4`` or ``us-letter``.

    Raises
    ------
    CaseError
        The kit is written wrongly.
    CallError
        The folder is missing, the file cannot be written, or the paper is not known.
    """
    from parbuckle.brief.pool_sheet import render_pool_sheet
    from parbuckle.case.read import read_kit

    when = now or datetime.now().astimezone()
    write_whole(out, render_pool_sheet(_sheet(read_kit(kit)), moment(when), paper))


def _sheet(kit: Kit) -> Mapping[str, Any]:
    dives = [p.name for p in kit.person if p.resting_rate or p.working_rate or p.spans.hand or p.spans.arms]
    return {
        "team": kit.team.name,
        "units": "metric",
        "version": __version__,
        "bags": [_bag(bag) for bag in kit.bag],
        "cylinders": [c.id for c in kit.cylinder if c.use == "lifting"],
        "people": dives or [p.name for p in kit.person],
    }


def _bag(bag: Bag) -> dict[str, Any]:
    row: dict[str, Any] = {"id": bag.id, "style": bag.style, "marked_l": bag.capacity.mid * _LITRES}
    known = bag.really
    if known is None:
        return row
    ends = {"low": known.low, "likely": known.mid, "high": known.high}
    return row | {"really_l": {name: value * _LITRES for name, value in ends.items()}}
