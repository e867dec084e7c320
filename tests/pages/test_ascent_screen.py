"""The terminal answer of the ascent: small, the state first, plain when piped."""

from __future__ import annotations

import io

import pytest
from rich.console import Console
from sample_ascent import ascents, tended
from sample_document import Document, variants

from parbuckle.cli.ascent_screen import show

WIDE, NARROW, LINES = 100, 80, 26


def _shown(document: Document, width: int = WIDE) -> str:
    out = io.StringIO()
    show(document, Console(file=out, width=width, highlight=False, emoji=False, markup=False))
    return out.getvalue()


@pytest.mark.parametrize("width", [WIDE, NARROW])
@pytest.mark.parametrize("name", sorted(ascents()))
def test_no_line_is_wider_than_the_screen(name: str, width: int) -> None:
    assert max(len(line) for line in _shown(ascents()[name], width).splitlines()) <= width


@pytest.mark.parametrize("name", sorted(ascents()))
def test_it_is_a_small_screen(name: str) -> None:
    assert len(_shown(ascents()[name]).splitlines()) <= LINES


@pytest.mark.parametrize("name", ["tended", "edge", "not_held", "alone"])
def test_the_state_comes_first(name: str) -> None:
    document = ascents()[name]
    told = document["ascent"].get("under_control") or document["ascent"]["words"]
    assert _shown(document).splitlines()[1].startswith(f"{told['state'].upper()}. ")


def test_what_to_do_comes_before_the_numbers() -> None:
    lines = _shown(tended()).splitlines()
    labels = ("Bags", "Do", "Let go if", "Numbers", "Chances", "Dump", "Change", "Risk from")
    places = [next(n for n, line in enumerate(lines) if line.startswith(label)) for label in labels]
    assert places == sorted(places)


def test_assumed_people_are_called_assumed() -> None:
    assert "are assumptions" in _shown(tended())


def test_every_stop_is_there() -> None:
    document = tended()
    document["findings"] = variants()["stops"]["findings"]
    text = " ".join(_shown(document).split())
    for finding in document["findings"]:
        if finding["level"] == "stop" and not finding["lifted"]:
            assert finding["text"] in text
    assert "questions are not answered" in text


def test_a_load_that_is_hauled_has_no_bag_and_says_how_to_ask() -> None:
    text = _shown({"lift": {"method": "hauled", "bags": []}, "ascent": None})
    assert "Hauled: no bag goes up." in text
    assert "--bags" in text


def test_an_empty_document_is_not_worked_out() -> None:
    text = _shown({})
    assert "Not worked out" in text
    assert "Local rules and the supervisor on site come first." in text


def test_it_is_plain_without_a_terminal() -> None:
    assert "\x1b" not in _shown(tended())
