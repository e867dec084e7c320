"""Rules on any text and on file names. Forbidden words are put together so that this file does not hold them."""

from __future__ import annotations

import re

_HOSTS = (
    "py" + "pi.org",
    "pythonhosted" + ".org",
    "npm" + "js.org",
    "deb" + "ian.org/debian",
    "anaconda" + ".org",
    "proxy.gol" + "ang.org",
)
_PLACES = "|".join(("wo" + "rk", "ro" + "ot", "ho" + "me", "t" + "mp", "o" + "pt", "Us" + "ers"))
_PATHS = re.compile(rf"(?<![\w.~\])}}-])/(?:{_PLACES})/[\w.]|[A-Z]:\\\\?Users|\.\./sha" + "red")
_LOOSE = re.compile(
    "|".join(
        (
            "TO" + "DO",
            "FIX" + "ME",
            "XX" + "X",
            "NotImple" + "mentedError",
            r"type: igno" + "re(?!\\[)",
            r"mark\.(?:sk" + "ip|xf" + "ail)\\b",
        )
    )
)
_NUMBERED = re.compile(r"(?:_more|_?\d+|_(?:new|old|copy|rest|extra))$")
_EMPTY_NAMES = {"utils", "util", "helpers", "helper", "managers", "manager", "misc", "common", "stuff"}


def addresses(text: str) -> list[str]:
    """Find addresses of package registries."""
    return [f"line {n}: {host}" for n, line in _lines(text) for host in _HOSTS if host in line]


def machine_paths(text: str) -> list[str]:
    """Find paths of somebody's machine."""
    return [f"line {n}: {found.group()}" for n, line in _lines(text) for found in _PATHS.finditer(line)]


def loose_ends(text: str) -> list[str]:
    """Find marks of unfinished work and of tests or checks switched off."""
    return [f"line {n}: {found.group()}" for n, line in _lines(text) for found in _LOOSE.finditer(line)]


def bad_name(stem: str) -> bool:
    """Tell whether a file's name says nothing, or is a number or a second part."""
    return bool(_NUMBERED.search(stem)) or stem in _EMPTY_NAMES


def links(text: str) -> list[str]:
    """Find addresses of any kind (none may stand in a lock file)."""
    return re.findall(r"(?:https?|file|git)(?:\+\w+)?:/\S*", text)


def _lines(text: str) -> list[tuple[int, str]]:
    return list(enumerate(text.splitlines(), start=1))
