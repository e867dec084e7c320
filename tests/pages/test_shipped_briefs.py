"""The shipped cases on paper: what everybody reads fits on one page, every stop on each, the file whole."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any

import pytest

import parbuckle
from parbuckle.brief.render import render_brief
from parbuckle.brief.states import holding_stops
from parbuckle.desk.briefing import write_brief
from parbuckle.desk.planning import plan
from parbuckle.quantity.errors import CallError

CASES = Path(parbuckle.__file__).parent / "data" / "cases"
WAYS = {"under_control", "bag_and_line", "phases", "lowering"}
NAMES = ("quarry-outboard", "tidal-frame", "training-drum", "first-answer", "mooring-block")
WRITTEN = "2027-04-13 22:10 +01:00"

MakePdf = Callable[[bytes], Any]


@cache
def _document(name: str) -> dict[str, Any]:
    return plan(CASES / f"{name}.toml", 128, 1)


@pytest.mark.parametrize("name", NAMES)
def test_page_one_is_one_page_with_everything_in_it(name: str, pdf: MakePdf) -> None:
    document = _document(name)
    pages = pdf(render_brief(document, WRITTEN)).pages()
    behind = "The way" if any((document.get("ascent") or {}).get(way) for way in WAYS) else "For the supervisor"
    assert behind in pages[1]
    assert any("For the supervisor" in page for page in pages[1:3])
    page = _bare(pages[0])
    calls = ("call", "position", "help", "recall", "comms")
    told = [(document["emergency"] or {}).get(key) or "not known" for key in calls]
    steps = [step["text"] for step in document["steps"]]
    for text in (*steps, *told, *document["abort"], document["abort_action"]):
        assert _bare(text) in page, text


def _bare(text: str) -> str:
    """Leave out every space and quotation mark, which a page may set in its own way."""
    return "".join(sign for sign in text if not sign.isspace() and sign not in "\"'“”‘’")


@pytest.mark.parametrize("name", NAMES)
def test_stops_stand_on_every_page(name: str, pdf: MakePdf) -> None:
    document = _document(name)
    stops = holding_stops(document)
    for page in pdf(render_brief(document, WRITTEN)).pages():
        assert ("STOP" in page) == bool(stops)
        assert all(_bare(text) in _bare(page) for text in stops)


def test_the_file_is_written_whole_and_nothing_is_left_beside_it(tmp_path: Path) -> None:
    out = tmp_path / "brief.pdf"
    write_brief(_document("quarry-outboard"), out, WRITTEN)
    write_brief(_document("quarry-outboard"), out, WRITTEN)
    assert out.read_bytes() == render_brief(_document("quarry-outboard"), WRITTEN)
    assert [path.name for path in tmp_path.iterdir()] == ["brief.pdf"]


def test_the_time_of_writing_is_now_when_none_is_given(tmp_path: Path) -> None:
    out = tmp_path / "brief.pdf"
    write_brief(_document("first-answer"), out)
    assert out.read_bytes()[:5] == b"%PDF-"


def test_a_missing_folder_is_an_error_in_words(tmp_path: Path) -> None:
    with pytest.raises(CallError, match="does not exist"):
        write_brief(_document("first-answer"), tmp_path / "no" / "brief.pdf", WRITTEN)


def test_a_folder_in_the_place_of_the_file_is_an_error_in_words(tmp_path: Path) -> None:
    with pytest.raises(CallError, match="is a folder"):
        write_brief(_document("first-answer"), tmp_path, WRITTEN)


def test_a_failed_write_leaves_the_old_file(tmp_path: Path) -> None:
    out = tmp_path / "brief.pdf"
    out.write_bytes(b"old")
    with pytest.raises(CallError, match="paper"):
        write_brief(_document("first-answer"), out, WRITTEN, paper="a7")
    assert out.read_bytes() == b"old"
