"""Read a case with its kit, or a kit alone: checked, cross-checked, ready for a plan."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import TypeVar

from pydantic import BaseModel, ValidationError

from parbuckle.case.cross import case_faults, kit_faults
from parbuckle.case.faults import faults_of, key_text, raise_first
from parbuckle.case.kit import Kit
from parbuckle.case.lines import Path as KeyPath
from parbuckle.case.lines import key_lines
from parbuckle.case.model import Case
from parbuckle.case.past import PastDive
from parbuckle.case.people import Spans
from parbuckle.case.source import Source, read_source
from parbuckle.case.spans import resolve
from parbuckle.case.written import UNKNOWN
from parbuckle.quantity.errors import CaseError

M = TypeVar("M", bound=BaseModel)


@dataclass(frozen=True, slots=True)
class LoadedCase:
    """A case as it was read.

    Parameters
    ----------
    case : Case
        The case.
    kit : Kit or None
        Its kit.
    path : Path
        The case file.
    sealed : Path or None
        The instructor's file; a plan never opens it, and it need not be there.
    digest : str
        32 hexadecimal digits over the text of case and kit.
    said_unknown : tuple of str
        Keys where the word ``unknown`` was written.
    past : Mapping of int to tuple of PastDive
        Logged dives by their row in ``exposure.earlier``; empty until somebody reads them.
    """

    case: Case
    kit: Kit | None
    path: Path
    sealed: Path | None
    digest: str
    said_unknown: tuple[str, ...]
    past: Mapping[int, tuple[PastDive, ...]] = field(default_factory=dict)


def read_case(path: Path) -> LoadedCase:
    """Read a case file and the kit that it names.

    Parameters
    ----------
    path : Path
        The case file.

    Returns
    -------
    LoadedCase
        Case and kit in SI.

    Raises
    ------
    CaseError
        For the first fault: file, key, line, what was given, what is allowed.
    """
    source = read_source(path)
    _is_case(source)
    case = _model(source, Case)
    kit, kit_source = _kit(case, source, path)
    spans = spans_of(case, kit)
    case, faults = resolve(case, spans)
    raise_first([*faults, *case_faults(case, kit)], source)
    texts = source.text + "\x1f" + (kit_source.text if kit_source else "")
    unknown = [*unknown_keys(source.data), *(unknown_keys(kit_source.data, ("kit",)) if kit_source else ())]
    return LoadedCase(
        case=case,
        kit=kit,
        path=path,
        sealed=path.parent / case.sealed if case.sealed else None,
        digest=hashlib.blake2b(texts.encode(), digest_size=16).hexdigest(),
        said_unknown=tuple(unknown),
    )


def read_kit(path: Path) -> Kit:
    """Read a kit file alone.

    Parameters
    ----------
    path : Path
        The kit file.

    Returns
    -------
    Kit
        In SI.

    Raises
    ------
    CaseError
        For the first fault: file, key, line, what was given, what is allowed.
    """
    return _checked_kit(read_source(path))


def _is_case(source: Source) -> None:
    """Refuse the two other files of a case by name; of a sealed one nothing is repeated."""
    if isinstance(source.data.get("object"), str):
        do = "name the case that belongs to it"
        raise CaseError("this is the sealed file of a lesson, not a case", file=source.shown, key="object", do=do)
    others = [key for key in ("bag", "cylinder", "connector", "sling", "line", "person", "team") if key in source.data]
    if others and not source.data.keys() & {"case", "site", "object", "lift"}:
        do = "name the case file; it names its kit by itself"
        raise CaseError("this looks like a kit, not a case", file=source.shown, key=others[0], given=others[0], do=do)


def _model(source: Source, model: type[M]) -> M:
    try:
        return model.model_validate(source.data)
    except ValidationError as report:
        raise_first(faults_of(report, model), source)
        raise


def _checked_kit(source: Source) -> Kit:
    kit = _model(source, Kit)
    raise_first(list(kit_faults(kit)), source)
    return kit


def _kit(case: Case, source: Source, path: Path) -> tuple[Kit | None, Source | None]:
    if case.kit is None:
        return None, None
    file = path.parent / case.kit
    if not file.is_file():
        raise CaseError(
            "the kit file is not there",
            file=source.shown,
            key="kit",
            line=key_lines(source.text).get(("kit",)),
            given=case.kit,
            allowed="a kit file, named relative to the case file",
            do="check the name, or copy the kit beside the case",
        )
    kit_source = read_source(file, str(file))
    return _checked_kit(kit_source), kit_source


def spans_of(case: Case, kit: Kit | None) -> dict[str, Spans]:
    """Give the hand and arm spans of everybody.

    Parameters
    ----------
    case : Case
        The case, for its trainees.
    kit : Kit or None
        Its kit, for the people.

    Returns
    -------
    dict of str to Spans
        By name.
    """
    people = {person.name: person.spans for person in kit.person} if kit else {}
    return people | {trainee.name: trainee.spans for trainee in case.trainee}


def unknown_keys(data: object, path: KeyPath = ()) -> Iterator[str]:
    """Find where the word ``unknown`` was written.

    Parameters
    ----------
    data : object
        Tables as they were written.
    path : tuple
        Path of these tables in the file.

    Yields
    ------
    str
        Keys, with rows counted from 1.
    """
    if isinstance(data, str) and data.strip() == UNKNOWN:
        yield key_text(path)
    elif isinstance(data, dict):
        for key, value in data.items():
            yield from unknown_keys(value, (*path, key))
    elif isinstance(data, list):
        for row, value in enumerate(data):
            yield from unknown_keys(value, (*path, row))
