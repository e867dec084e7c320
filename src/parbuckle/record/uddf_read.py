"""Logged dives from UDDF 3, the open format for dive logs; SI units; everything hostile refused.

The names of the elements are recalled from the open standard, version 3.2; they were not read again for this room.
Read are ``mix``, ``tankdata`` and ``waypoint`` with ``divetime``, ``depth``, ``temperature``, ``tankpressure`` and
``switchmix``, and the ``datetime`` of a dive. All else is passed over.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

from parbuckle.quantity.breathing import Gas
from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.refusals import shorten
from parbuckle.record.file_text import number, read_text, told
from parbuckle.record.profile import MOST_SAMPLES, TEMPERATURE, Profile, Series, Switch, Tank, gas_of

if TYPE_CHECKING:
    from xml.etree.ElementTree import Element

MOST_DIVES = 2000
"""Most dives of one file. House default."""

_VERSION = re.compile(r"3(\.[0-9]{1,2}){0,2}", re.ASCII)
_MOMENT = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}(:[0-9]{2}(\.[0-9]+)?)?(Z|[-+][0-9]{2}:[0-9]{2})?")
_DEEPEST_NEST = 40

Rows = dict[str, tuple[list[float], list[float]]]


def read_uddf(path: Path) -> list[Profile]:
    """Read the dives of a UDDF file.

    Parameters
    ----------
    path : Path
        The file.

    Returns
    -------
    list of Profile
        In the order of the file.

    Raises
    ------
    CaseError
        With one sentence of what is wrong and in which dive.

    Notes
    -----
    Valid range: version 3, at most 20 MB, no document type, no entities. Source: UDDF 3.2, recalled.
    """
    text = read_text(path)
    with told(path.name):
        return profiles_of(text)


def profiles_of(text: str) -> list[Profile]:
    """Read the dives of a UDDF text.

    Parameters
    ----------
    text : str
        The whole document.

    Returns
    -------
    list of Profile
        In the order of the document.

    Raises
    ------
    RangeError
        If it is no UDDF 3, declares a document type or entities, holds no dive, or a dive cannot be used.

    Examples
    --------
    >>> way = "".join(
    ...     f"<waypoint><depth>{d}</depth><divetime>{t}</divetime></waypoint>" for t, d in ((0, 0), (60, 9))
    ... )
    >>> made = profiles_of(f"<uddf version='3.2.0'><dive id='d'><samples>{way}</samples></dive></uddf>")
    >>> made[0].deepest
    9.0
    """
    root = _root(text)
    gases = {_id(mix, "mix"): _gas(mix) for mix in _all(root, "mix")}
    dives = list(_all(root, "dive"))
    if not dives:
        raise RangeError("it holds no dive")
    if len(dives) > MOST_DIVES:
        raise RangeError(f"it holds {len(dives)} dives; at most {MOST_DIVES} are read")
    out = []
    for place, dive in enumerate(dives, start=1):
        try:
            out.append(_dive(dive, gases))
        except RangeError as error:
            raise RangeError(f"dive {place}: {error}") from None
    return out


def _root(text: str) -> Element:
    from xml.etree.ElementTree import ParseError

    from defusedxml.common import DefusedXmlException
    from defusedxml.ElementTree import fromstring

    try:
        root: Element = fromstring(text, forbid_dtd=True, forbid_entities=True, forbid_external=True)
    except DefusedXmlException:
        raise RangeError("it declares entities or a document type, which no log needs: refused") from None
    except (ParseError, RecursionError, ValueError):
        raise RangeError("it is no well-formed XML") from None
    if _name(root) != "uddf":
        raise RangeError(f"it is no UDDF: it begins with '{shorten(_name(root))}'")
    if not _VERSION.fullmatch(root.get("version", "")):
        raise RangeError(f"UDDF version 3 is read; this one says '{shorten(root.get('version', 'nothing'))}'")
    _check_nest(root)
    return root


def _check_nest(root: Element) -> None:
    level = [root]
    for _ in range(_DEEPEST_NEST):
        level = [child for element in level for child in element]
    if level:
        raise RangeError("its elements are nested deeper than any log: refused")


def _dive(dive: Element, gases: dict[str, Gas]) -> Profile:
    waypoints = list(_all(dive, "waypoint"))
    if len(waypoints) > MOST_SAMPLES:
        raise RangeError(f"it has {len(waypoints)} samples; at most {MOST_SAMPLES} are read")
    time, depth, switches = [], [], []
    warm: tuple[list[float], list[float]] = ([], [])
    pressures: Rows = {}
    for waypoint in waypoints:
        moment = number(_text(waypoint, "divetime"), "a divetime")
        time.append(moment)
        depth.append(number(_text(waypoint, "depth"), f"the depth at {moment:g} s"))
        if (kelvin := _text(waypoint, "temperature")) is not None:
            warm[0].append(moment)
            warm[1].append(_kelvin(number(kelvin, f"the temperature at {moment:g} s")))
        for told_pressure in _all(waypoint, "tankpressure"):
            row = pressures.setdefault(told_pressure.get("ref", ""), ([], []))
            row[0].append(moment)
            row[1].append(number(told_pressure.text, f"the tankpressure at {moment:g} s"))
        switches += [Switch(moment, _known(gases, change.get("ref", ""))) for change in _all(waypoint, "switchmix")]
    return Profile(
        np.array(time),
        np.array(depth),
        _series(warm),
        tuple(switches),
        _tanks(dive, gases, pressures),
        _start(dive),
    )


def _tanks(dive: Element, gases: dict[str, Gas], pressures: Rows) -> tuple[Tank, ...]:
    out, behind = [], f"-{dive.get('id')}"  # an id stands once in a file: a name twice has that of its dive behind it
    for place, data in enumerate(_all(dive, "tankdata"), start=1):
        name = data.get("id") or str(place)
        volume = _text(data, "tankvolume")
        links = [link.get("ref", "") for link in _all(data, "link")]
        gas = next((gases[ref] for ref in links if ref in gases), None)
        told_pressure = pressures.pop(name, None) or (pressures.pop("", None) if place == 1 else None)
        litres = None if volume is None else number(volume, "a tankvolume")
        shown = name.removesuffix(behind) or name
        out.append(Tank(shown, gas, litres, None if told_pressure is None else _series(told_pressure)))
    out += [Tank(name or "1", None, None, _series(row)) for name, row in pressures.items()]
    return tuple(out)


def _series(rows: tuple[list[float], list[float]]) -> Series | None:
    return Series(np.array(rows[0]), np.array(rows[1])) if rows[0] else None


def _kelvin(value: float) -> float:
    if value < TEMPERATURE.low:
        raise RangeError(f"temperature {value:g}: UDDF keeps kelvin, and this is no water in kelvin")
    return value


def _gas(mix: Element) -> Gas:
    return gas_of(number(_text(mix, "o2"), "the oxygen of a mix"), number(_text(mix, "he") or "0", "the helium"))


def _known(gases: dict[str, Gas], ref: str) -> Gas:
    if ref not in gases:
        raise RangeError(f"it changes to the mix '{shorten(ref)}', which the file does not define")
    return gases[ref]


def _start(dive: Element) -> str | None:
    text = (_text(dive, "datetime") or "").strip()
    if text and not _MOMENT.fullmatch(text):
        raise RangeError(f"its datetime is no moment in ISO 8601: '{shorten(text)}'")
    return text or None


def _id(element: Element, what: str) -> str:
    if not element.get("id"):
        raise RangeError(f"a {what} has no id")
    return str(element.get("id"))


def _all(element: Element, name: str) -> Iterator[Element]:
    return (child for child in element.iter() if _name(child) == name)


def _text(element: Element, name: str) -> str | None:
    found = next(_all(element, name), None)
    return None if found is None else (found.text or "")


def _name(element: Element) -> str:
    return str(element.tag).rsplit("}", 1)[-1]
