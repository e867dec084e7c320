"""Checks across tables: names that stand twice, names that nobody has, and one cylinder for one use."""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Iterator

from parbuckle.case.diving import Dive, Earlier, Member
from parbuckle.case.faults import Fault
from parbuckle.case.kit import Cylinder, Kit
from parbuckle.case.lines import Path
from parbuckle.case.model import Case

NEVER_SHARED = "gas for a bag never comes from a cylinder that anybody breathes from"


def kit_faults(kit: Kit) -> Iterator[Fault]:
    """Find what does not fit together in a kit.

    Parameters
    ----------
    kit : Kit
        The kit.

    Returns
    -------
    iterator of Fault
        Ids and names that stand twice, contents without a rated pressure, fills that cannot be.
    """
    for table in ("bag", "cylinder", "connector", "sling", "line"):
        yield from _twice((table,), "id", [item.id for item in getattr(kit, table)])
    yield from _twice(("person",), "name", [person.name for person in kit.person])
    for row, cylinder in enumerate(kit.cylinder):
        yield from _cylinder(("cylinder", row), cylinder, [bag.id for bag in kit.bag])


def case_faults(case: Case, kit: Kit | None) -> Iterator[Fault]:
    """Find what does not fit together in a case, and between a case and its kit.

    Parameters
    ----------
    case : Case
        The case.
    kit : Kit or None
        Its kit, if it names one.

    Returns
    -------
    iterator of Fault
        Names that stand twice, names that nobody has, cylinders used wrongly.
    """
    people = [person.name for person in kit.person] if kit else []
    trainees = [trainee.name for trainee in case.trainee]
    yield from _twice(("trainee",), "name", trainees, people)
    yield from _twice(("object", "part"), "name", [part.name for part in case.object.part])
    yield from _twice(("object", "cavity"), "name", [cavity.name for cavity in case.object.cavity])
    for row, account in enumerate(case.account):
        if account.at is not None and account.from_ is not None:
            path: Path = ("account", row)
            do = "make two accounts of it"
            yield Fault(path, "an account is a point or a bearing, not both", "at and from", "'at', or 'from'", do)
    for path, table, name in _named(case):
        known = [item.id for item in getattr(kit, table)] if kit else []
        yield from _missing(path, name, known, f"a {table}", kit is not None)
    for row, earlier in enumerate(case.exposure.earlier):
        known = people + trainees
        yield from _missing(("exposure", "earlier", row, "person"), earlier.person, known, "a person", kit is not None)
        yield from _logged(("exposure", "earlier", row), earlier)
    yield from _lifting(case, kit)
    for row, dive in enumerate(case.dive):
        yield from _dive(("dive", row), dive, people + trainees, kit)


def _logged(path: Path, earlier: Earlier) -> Iterator[Fault]:
    """A log tells depth and time itself, and a mapping belongs to a log."""
    if earlier.log is None and earlier.mapping is not None:
        do = "name the log"
        yield Fault((*path, "mapping"), "a mapping belongs to a log", earlier.mapping, "'log' beside it", do)
    for key in ("depth", "time") if earlier.log is not None else ():
        if (told := getattr(earlier, key)) is not None:
            yield Fault((*path, key), "the log tells this itself", told.text, "log, or depth and time", "take one out")


def _named(case: Case) -> Iterator[tuple[Path, str, str]]:
    lift, surface = case.lift, case.surface
    for row, bag in enumerate(lift.bags or ()):
        yield ("lift", "bags", row), "bag", bag
    for row, item in enumerate(lift.rigging):
        for table in ("connector", "sling", "line"):
            if name := getattr(item, table):
                yield ("lift", "rigging", row, table), table, name
    for row, trial in enumerate(case.object.trial):
        if trial.bag:
            yield ("object", "trial", row, "bag"), "bag", trial.bag
    if lift.cylinder:
        yield ("lift", "cylinder"), "cylinder", lift.cylinder
    if lift.restraint and lift.restraint.line:
        yield ("lift", "restraint", "line"), "line", lift.restraint.line
    if lift.crown_line and lift.crown_line.line:
        yield ("lift", "crown_line", "line"), "line", lift.crown_line.line
    if case.lowering and case.lowering.line:
        yield ("lowering", "line"), "line", case.lowering.line
    if surface.line_to_surface:
        yield ("surface", "line_to_surface"), "line", surface.line_to_surface


def _lifting(case: Case, kit: Kit | None) -> Iterator[Fault]:
    yield from _twice(("lift", "bags"), "", list(case.lift.bags or ()))
    uses = {cylinder.id: cylinder.use for cylinder in kit.cylinder} if kit else {}
    for path, name in ((("lift", "cylinder"), case.lift.cylinder), (("surface", "top_up"), case.surface.top_up)):
        if name and uses.get(name) == "breathing":
            lifting = ", ".join(key for key, use in uses.items() if use == "lifting") or "none in this kit"
            do = f"take a lifting cylinder: {lifting}"
            yield Fault(path, f"refused: {NEVER_SHARED}", f"{name}, a breathing cylinder", "a cylinder for lifting", do)


def _dive(path: Path, dive: Dive, people: list[str], kit: Kit | None) -> Iterator[Fault]:
    uses = {cylinder.id: cylinder.use for cylinder in kit.cylinder} if kit else {}
    taken: dict[str, str] = {}
    for row, member in enumerate(dive.team):
        here: Path = (*path, "team", row)
        yield from _missing((*here, "person"), member.person, people, "a person", kit is not None)
        yield from _carried(here, member)
        for there, name in _breathed(here, member):
            yield from _missing(there, name, list(uses), "a cylinder", kit is not None)
            if uses.get(name) == "lifting":
                given = f"{name}, a lifting cylinder, for {member.person}"
                yield Fault(there, f"refused: {NEVER_SHARED}", given, "a breathing cylinder", "give another one")
            if name in taken and taken[name] != member.person:
                given = f"{name} for {taken[name]} and for {member.person}"
                do = "give each diver a cylinder"
                yield Fault(there, "two divers breathe from one cylinder in one dive", given, "one diver", do)
            taken[name] = member.person
    team = [member.person for member in dive.team]
    for row, task in enumerate(dive.tasks):
        for place, name in enumerate(task.by):
            yield from _missing((*path, "tasks", row, "by", place), name, team, "a person in this dive's team", True)
        if task.check:
            yield from _missing((*path, "tasks", row, "check"), task.check, team, "a person in this dive's team", True)


def _breathed(path: Path, member: Member) -> list[tuple[Path, str]]:
    """Every cylinder that one person has on a dive, with where it is named."""
    own: list[tuple[Path, str]] = [((*path, "cylinder"), member.cylinder)] if member.cylinder else []
    return own + [((*path, "carries", n, "cylinder"), each.cylinder) for n, each in enumerate(member.carries)]


def _carried(path: Path, member: Member) -> Iterator[Fault]:
    """A carried cylinder is another one than the set, and each change has its own depth."""
    yield from _twice((*path, "carries"), "cylinder", [each.cylinder for each in member.carries])
    depths: list[float] = []
    for n, each in enumerate(member.carries):
        here: Path = (*path, "carries", n)
        if each.cylinder == member.cylinder:
            do = "name the cylinder that is carried beside the set"
            yield Fault((*here, "cylinder"), "this is the set itself", each.cylinder, "another cylinder", do)
        if each.change_at is not None:
            if each.change_at.mid in depths:
                do = "give each change a depth of its own"
                yield Fault((*here, "change_at"), "two changes at one depth", each.change_at.text, "one change", do)
            depths.append(each.change_at.mid)


def _cylinder(path: Path, cylinder: Cylinder, bags: list[str]) -> Iterator[Fault]:
    if cylinder.content and not cylinder.rated:
        do = "write rated = '3000 psi', as it is stamped"
        what = "a content needs its rated pressure beside it"
        yield Fault((*path, "content"), what, cylinder.content.text, "content and rated", do)
    if cylinder.content and cylinder.volume:
        given = f"{cylinder.volume.text} and {cylinder.content.text}"
        yield Fault(
            (*path, "content"),
            "a cylinder has a volume or a content, not both",
            given,
            "one of the two",
            "take one out",
        )
    if cylinder.fills and cylinder.use == "breathing":
        yield Fault((*path, "fills"), f"refused: {NEVER_SHARED}", f"{cylinder.id} fills a bag", "a lifting cylinder")
    if cylinder.fills:
        yield from _missing((*path, "fills", "bag"), cylinder.fills.bag, bags, "a bag", True)


def _twice(path: Path, key: str, names: list[str], others: Iterable[str] = ()) -> Iterator[Fault]:
    seen = set(others)
    for row, name in enumerate(names):
        if name in seen:
            here: Path = (*path, row, key) if key else (*path, row)
            yield Fault(here, f"'{name}' stands twice", name, "each name once", "give one of them another name")
        seen.add(name)


def _missing(path: Path, name: str, known: list[str], sort: str, has_kit: bool) -> Iterator[Fault]:
    if name in known:
        return
    if not has_kit and not known:
        yield Fault(path, f"the case names {sort} but no kit", name, "a kit file", 'write kit = "kit.toml" at the top')
        return
    near = difflib.get_close_matches(name, known, 1, 0.5)
    do = f"did you mean '{near[0]}'?" if near else "add it to the kit, or name another"
    yield Fault(path, f"'{name}' is not known as {sort}", name, ", ".join(known) or "none is there", do)
