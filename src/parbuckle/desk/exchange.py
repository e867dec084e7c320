"""Files of a case: which there are, why one is not there, and each as bytes; and texts of files taken in."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from parbuckle.quantity.errors import CallError

Document = Mapping[str, Any]

_NO_PLAN = "There is no plan: something is written wrongly."
_NO_SEARCH = "There is no search: nothing was told about where it lies."
_NO_KIT = "The case names no kit."
_NO_SLATE = "There is nothing for a slate yet."


@dataclass(frozen=True, slots=True)
class Materials:
    """All that a file of a case is made from.

    Parameters
    ----------
    plan : mapping or None
        The plan document.
    case : mapping
        The written document of the case.
    kit : mapping or None
        That of its kit.
    written_at : str
        When it is written, as it shall stand on each page.
    paper : str
        ``a4`` or ``us-letter``.
    """

    plan: Document | None
    case: Document
    kit: Document | None
    written_at: str
    paper: str = "a4"


@dataclass(frozen=True, slots=True)
class _Kind:
    title: str
    type: str
    why_not: Callable[[Materials], str | None]
    make: Callable[[Materials], bytes]


def file_list(materials: Materials) -> list[dict[str, str | None]]:
    """List the files of a case.

    Parameters
    ----------
    materials : Materials
        What they are made from.

    Returns
    -------
    list of dict
        ``name``, ``title``, ``type`` and ``why_not`` (null when the file can be had).
    """
    return [
        {"name": name, "title": kind.title, "type": kind.type, "why_not": kind.why_not(materials)}
        for name, kind in _KINDS.items()
    ]


def file_of(name: str, materials: Materials) -> tuple[bytes, str]:
    """Give one file of a case.

    Parameters
    ----------
    name : str
        Its name in the list.
    materials : Materials
        What it is made from.

    Returns
    -------
    tuple of bytes and str
        What stands in it, and its media type.

    Raises
    ------
    CallError
        If there is no such file, or it cannot be had; with the reason.
    """
    if name not in _KINDS:
        raise CallError(f"there is no file {name[:60]!r}; there are {', '.join(_KINDS)}")
    kind = _KINDS[name]
    if reason := kind.why_not(materials):
        raise CallError(reason)
    return kind.make(materials), kind.type


def take_in(case: str, kit: str | None = None) -> tuple[dict[str, Any], dict[str, Any] | None]:
    """Take the texts of a case file and of its kit file as documents.

    Parameters
    ----------
    case : str
        Text of the case file.
    kit : str, optional
        Text of the kit file.

    Returns
    -------
    tuple of dict and dict or None
        Both documents; only their form is checked.

    Raises
    ------
    CaseError
        If a text is no TOML, too large, nested too deep, of another version, or the other kind of file.
    """
    from parbuckle.case.toml_text import from_toml, must_be

    taken = must_be("case", from_toml(case, "the case"))
    return taken, None if kit is None else must_be("kit", from_toml(kit, "the kit"))


def _has_plan(materials: Materials) -> str | None:
    return _NO_PLAN if materials.plan is None else None


def _has_search(materials: Materials) -> str | None:
    if materials.plan is None:
        return _NO_PLAN
    return None if materials.plan.get("search") else _NO_SEARCH


def _has_card(materials: Materials) -> str | None:
    reason = _has_search(materials)
    if reason is None and materials.plan is not None and not materials.plan["search"].get("best"):
        return "No pattern can be swum as the case stands."
    return reason


def _has_slate(materials: Materials) -> str | None:
    if materials.plan is None:
        return _NO_PLAN
    return None if materials.plan.get("slate") else _NO_SLATE


def _plan(materials: Materials) -> Document:
    assert materials.plan is not None
    return materials.plan


def _brief(materials: Materials) -> bytes:
    from parbuckle.brief.render import render_brief

    return render_brief(_plan(materials), materials.written_at, materials.paper)


def _page(materials: Materials) -> bytes:
    from parbuckle.brief.html_page import write_brief_html

    return write_brief_html(_plan(materials), materials.written_at).encode()


def _slates(materials: Materials) -> bytes:
    from parbuckle.brief.slates import render_slates

    return render_slates(_plan(materials), materials.written_at)


def _card(materials: Materials) -> bytes:
    from parbuckle.brief.search_card import render_search_card

    return render_search_card(_plan(materials), materials.written_at, materials.paper)


def _places(ending: str) -> Callable[[Materials], bytes]:
    def make(materials: Materials) -> bytes:
        from parbuckle.brief.exchange import WRITERS
        from parbuckle.plan.search_places import places_of

        plan = _plan(materials)
        return WRITERS[ending](plan, places_of(plan["search"])).encode()

    return make


def _case(materials: Materials) -> bytes:
    from parbuckle.case.toml_text import to_toml

    names_kit = {**materials.case, "kit": "kit.toml"} if materials.kit is not None else materials.case
    return to_toml(names_kit, f"Written by parbuckle, {materials.written_at}.").encode()


def _kit(materials: Materials) -> bytes:
    from parbuckle.case.toml_text import to_toml

    return to_toml(materials.kit or {}, f"Written by parbuckle, {materials.written_at}.", "kit").encode()


_KINDS: dict[str, _Kind] = {
    "brief.pdf": _Kind("The brief, on paper", "application/pdf", _has_plan, _brief),
    "slate.pdf": _Kind("The slates, A6", "application/pdf", _has_slate, _slates),
    "search-card.pdf": _Kind("The search card", "application/pdf", _has_card, _card),
    "brief.html": _Kind("The brief, for a phone without a network", "text/html; charset=utf-8", _has_plan, _page),
    "search.gpx": _Kind("The search, GPX", "application/gpx+xml", _has_search, _places(".gpx")),
    "search.kml": _Kind("The search, KML", "application/vnd.google-earth.kml+xml", _has_search, _places(".kml")),
    "search.geojson": _Kind("The search, GeoJSON", "application/geo+json", _has_search, _places(".geojson")),
    "search.csv": _Kind("The search, CSV", "text/csv; charset=utf-8", _has_search, _places(".csv")),
    "case.toml": _Kind("The case as a file", "application/toml", lambda _: None, _case),
    "kit.toml": _Kind("The kit as a file", "application/toml", lambda m: None if m.kit else _NO_KIT, _kit),
}
