"""The logs that a case names as dives made before it: read, and put beside the case."""

from __future__ import annotations

import hashlib
from dataclasses import replace
from pathlib import Path

import numpy as np

from parbuckle.case.diving import Earlier
from parbuckle.case.past import PastDive
from parbuckle.case.read import LoadedCase
from parbuckle.duties.house import House, load_house
from parbuckle.plan.defaults import defaults
from parbuckle.quantity.errors import CaseError
from parbuckle.record.log_judging import leaves_bottom
from parbuckle.record.log_reading import SLATES, TABLES, UDDF, Logged, read_logs
from parbuckle.record.rates import largest_tooth, too_fast


def with_past(loaded: LoadedCase) -> LoadedCase:
    """Read the logs of the dives that were made before a case.

    Parameters
    ----------
    loaded : LoadedCase
        As it was read.

    Returns
    -------
    LoadedCase
        With the logged dives, and with their files in the digest; the same where the case names none.

    Raises
    ------
    CaseError
        If a log is not there, cannot be read, does not say when it was, or says it twice.
    """
    rows = [(n, row) for n, row in enumerate(loaded.case.exposure.earlier) if row.log is not None]
    if not rows:
        return loaded
    text = hashlib.blake2b(loaded.digest.encode(), digest_size=16)
    past = {}
    for place, row in rows:
        files = [_file(loaded, place, key) for key in ("log", "mapping") if getattr(row, key) is not None]
        _readable(loaded, place, row, files[0])
        past[place] = _dives(loaded, place, row, read_logs(files[:1], *files[1:]))
        for file in files:
            text.update(file.read_bytes())
    return replace(loaded, past=past, digest=text.hexdigest())


def _file(loaded: LoadedCase, place: int, key: str) -> Path:
    named = str(getattr(loaded.case.exposure.earlier[place], key))
    file = loaded.path.parent / named.replace("\0", "")
    if not file.is_file():
        where, do = _key(place, key), "check the name, or copy the file beside the case"
        allowed = "a file, named relative to the case file"
        raise CaseError("this file is not there", key=where, given=named, allowed=allowed, do=do)
    return file


def _readable(loaded: LoadedCase, place: int, row: Earlier, file: Path) -> None:
    """Refuse an ending that is not read, and a table that nobody explains."""
    ending = file.suffix.lower()
    if ending not in (*UDDF, *TABLES, *SLATES):
        do = f"take a log that ends in {', '.join((*UDDF, *TABLES, *SLATES))}"
        raise _wrong(loaded, place, "log", "no log ends like this", do)
    if ending in TABLES and row.mapping is None:
        what = f"{file.name} is a table, and nothing says which column is what"
        raise _wrong(loaded, place, "mapping", what, 'write mapping = "columns.toml" beside it')


def _dives(loaded: LoadedCase, place: int, row: Earlier, logs: list[Logged]) -> tuple[PastDive, ...]:
    if row.surfaced is not None and len(logs) > 1:
        what = f"the log holds {len(logs)} dives, so one end cannot be told for them"
        raise _wrong(loaded, place, "surfaced", what, "take it out; each dive of the log needs its own start")
    return tuple(_dive(loaded, place, row, log) for log in logs)


def _dive(loaded: LoadedCase, place: int, row: Earlier, log: Logged) -> PastDive:
    profile = log.profile
    if log.start is not None and row.surfaced is not None:
        raise _wrong(loaded, place, "surfaced", f"{log.file} tells when the dive was", "take one of both out")
    if log.start is None and row.surfaced is None:
        do = "write surfaced = 2027-05-09T08:10:00+01:00 beside it"
        raise _wrong(loaded, place, "surfaced", f"{log.file} does not tell when the dive was, with its time zone", do)
    if row.gas is not None and any(switch.gas != row.gas for switch in profile.switches):
        raise _wrong(loaded, place, "gas", f"{log.file} tells another gas", "take one of both out")
    start = log.start if row.surfaced is None else row.surfaced.timestamp() - float(profile.time[-1])
    assert start is not None
    switches = tuple((switch.time, switch.gas) for switch in profile.switches)
    if not switches and row.gas is not None:
        switches = ((0.0, row.gas),)
    late = profile.time[0] > 0.0  # it began to log under way
    time, depth = profile.time, np.maximum(profile.depth, 0.0)
    if late:
        time, depth = np.insert(time, 0, 0.0), np.insert(depth, 0, 0.0)
        switches = ((0.0, switches[0][1]), *switches[1:]) if switches else ()
    house = load_house(loaded.case.house)
    fast = tuple((each.rate, each.depth, each.end) for each in too_fast(profile, house["ceiling"]))
    return PastDive(
        file=log.file,
        start=start,
        time=tuple(time.tolist()),
        depth=tuple(depth.tolist()),
        switches=switches,
        bottom_time=_bottom(loaded, log, house),
        fast=fast,
        tooth=largest_tooth(profile),
    )


def _bottom(loaded: LoadedCase, log: Logged, house: House) -> float:
    """Bottom time, with the stop and the rates of this case."""
    told = loaded.case.exposure.stop
    stop = (told.depth if told else None) or defaults()["stop_depth"].value
    return leaves_bottom(log.profile, stop.mid + house["sawtooth"], house["ceiling"])


def _key(place: int, key: str) -> str:
    return f"exposure.earlier[{place + 1}].{key}"


def _wrong(loaded: LoadedCase, place: int, key: str, what: str, do: str) -> CaseError:
    given = getattr(loaded.case.exposure.earlier[place], key)
    return CaseError(what, key=_key(place, key), given="" if given is None else str(given), do=do)
