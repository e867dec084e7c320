"""Logged dives to UDDF 3.2, so that any other log can take them over; SI units; the same dives give the same text.

The names and the order of the elements are recalled from the open standard; no schema was at hand to hold them against.
An id is one XML name and stands once in the file: a cylinder whose name is taken gets that of its dive behind it.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from xml.etree.ElementTree import Element, SubElement, indent, tostring

from parbuckle.quantity.breathing import Gas
from parbuckle.record.profile import Profile, Series, Tank

VERSION = "3.2.0"
"""Version of the format that is written. Source: the open standard, recalled."""

_ID = re.compile(r"[A-Za-z_][A-Za-z0-9_.-]*", re.ASCII)  # of the names that XML allows as an id the plain ones
_SPACE = "http://www.streit.cc/uddf/3.2/"  # name of the format's name space, recalled; it is never opened


def uddf_of(profiles: Sequence[Profile], program: str, version: str, written_at: str) -> str:
    """Write dives as UDDF.

    Parameters
    ----------
    profiles : sequence of Profile
        The dives, in order.
    program, version : str
        What wrote the file.
    written_at : str
        When, ISO 8601.

    Returns
    -------
    str
        The whole document.

    Notes
    -----
    Valid range: any profile; numbers are written so that reading gives the same ones. Source: UDDF 3.2, recalled.

    Examples
    --------
    >>> import numpy as np
    >>> made = uddf_of([Profile(np.array([0.0, 60.0]), np.array([0.0, 9.0]))], "example", "1", "2027-05-09T10:00:00Z")
    >>> "<depth>9.0</depth>" in made
    True
    """
    root = Element("uddf", {"xmlns": _SPACE, "version": VERSION})
    generator = SubElement(root, "generator")
    for name, text in (("name", program), ("type", "logbook"), ("version", version), ("datetime", written_at)):
        SubElement(generator, name).text = text
    gases = {gas: f"mix{place}" for place, gas in enumerate(_gases(profiles), start=1)}
    if gases:
        _mixes(SubElement(root, "gasdefinitions"), gases)
    data = SubElement(root, "profiledata")
    taken = set(gases.values())
    taken |= {f"{word}{place}" for word in ("group", "dive") for place in range(1, len(profiles) + 1)}
    for place, profile in enumerate(profiles, start=1):
        group = SubElement(data, "repetitiongroup", {"id": f"group{place}"})
        ids = _ids(profile.tanks, f"dive{place}", taken)
        _dive(SubElement(group, "dive", {"id": f"dive{place}"}), profile, gases, ids)
    indent(root)
    return '<?xml version="1.0" encoding="utf-8"?>\n' + tostring(root, encoding="unicode") + "\n"


def _gases(profiles: Sequence[Profile]) -> list[Gas]:
    found: dict[Gas, None] = {}
    for profile in profiles:
        found.update(dict.fromkeys(switch.gas for switch in profile.switches))
        found.update(dict.fromkeys(tank.gas for tank in profile.tanks if tank.gas is not None))
    return list(found)


def _ids(tanks: Sequence[Tank], dive: str, taken: set[str]) -> list[str]:
    """An id for each cylinder, and note it as taken; its own name wherever that can be one."""
    found = []
    for place, tank in enumerate(tanks, start=1):
        name = tank.name if _ID.fullmatch(tank.name) else f"tank{place}"
        name = name if name not in taken else f"{name}-{dive}"
        while name in taken:
            name = f"tank{place}-{name}"
        taken.add(name)
        found.append(name)
    return found


def _mixes(parent: Element, gases: dict[Gas, str]) -> None:
    for gas, name in gases.items():
        mix = SubElement(parent, "mix", {"id": name})
        shares = (("o2", gas.oxygen), ("n2", gas.nitrogen), ("he", gas.helium), ("ar", 0.0), ("h2", 0.0))
        SubElement(mix, "name").text = gas.text
        for part, share in shares:
            SubElement(mix, part).text = repr(float(share))


def _dive(dive: Element, profile: Profile, gases: dict[Gas, str], ids: Sequence[str]) -> None:
    if profile.start is not None:
        SubElement(SubElement(dive, "informationbeforedive"), "datetime").text = profile.start
    for name, tank in zip(ids, profile.tanks, strict=True):
        _tank(dive, name, tank, gases)
    samples = SubElement(dive, "samples")
    switches = {switch.time: gases[switch.gas] for switch in profile.switches}
    warm = _by_time(profile.temperature)
    pressures = [(name, _by_time(tank.pressure)) for name, tank in zip(ids, profile.tanks, strict=True)]
    for time, depth in zip(profile.time.tolist(), profile.depth.tolist(), strict=True):
        waypoint = SubElement(samples, "waypoint")
        SubElement(waypoint, "depth").text = repr(depth)
        SubElement(waypoint, "divetime").text = repr(time)
        if time in switches:
            SubElement(waypoint, "switchmix", {"ref": switches[time]})
        for name, values in pressures:
            if time in values:
                SubElement(waypoint, "tankpressure", {"ref": name}).text = repr(values[time])
        if time in warm:
            SubElement(waypoint, "temperature").text = repr(warm[time])
    after = SubElement(dive, "informationafterdive")
    SubElement(after, "greatestdepth").text = repr(profile.deepest)
    SubElement(after, "diveduration").text = repr(float(profile.time[-1]))


def _tank(dive: Element, name: str, tank: Tank, gases: dict[Gas, str]) -> None:
    data = SubElement(dive, "tankdata", {"id": name})
    if tank.gas is not None:
        SubElement(data, "link", {"ref": gases[tank.gas]})
    if tank.volume is not None:
        SubElement(data, "tankvolume").text = repr(float(tank.volume))
    if tank.pressure is not None:
        SubElement(data, "tankpressurebegin").text = repr(float(tank.pressure.value[0]))
        SubElement(data, "tankpressureend").text = repr(float(tank.pressure.value[-1]))


def _by_time(series: Series | None) -> dict[float, float]:
    return {} if series is None else dict(zip(series.time.tolist(), series.value.tolist(), strict=True))
