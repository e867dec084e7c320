"""Files of a case: which there are, why not, what stands in them; and texts of files taken in."""

from __future__ import annotations

import json
import tomllib
from typing import Any

import pytest

from guard.tree import PACKAGE
from parbuckle.desk.exchange import Materials, file_list, file_of, take_in
from parbuckle.quantity.errors import CallError, CaseError
from sample_documents import case_of, kit_of, planned

WRITTEN = "2027-04-13 22:10 +01:00"
FILES = PACKAGE / "data" / "cases"
BEGINS = {
    "brief.pdf": b"%PDF-",
    "slate.pdf": b"%PDF-",
    "search-card.pdf": b"%PDF-",
    "brief.html": b"<!doctype html>",
    "search.gpx": b"<?xml",
    "search.kml": b"<?xml",
    "search.geojson": b"{",
    "search.csv": b"",
    "case.toml": b"# Written by parbuckle, 2027",
    "kit.toml": b"# Written by parbuckle, 2027",
}


def materials(name: str, plan: bool = True) -> Materials:
    case = case_of(name)
    return Materials(planned(name) if plan else None, case, kit_of(case), WRITTEN)


def reasons(made_from: Materials) -> dict[str, Any]:
    return {str(row["name"]): row["why_not"] for row in file_list(made_from)}


def test_all_files_of_a_whole_case_can_be_had() -> None:
    made_from = materials("quarry-outboard")
    assert list(reasons(made_from)) == list(BEGINS)
    assert not any(reasons(made_from).values())
    for name, start in BEGINS.items():
        content, kind = file_of(name, made_from)
        assert content.startswith(start), name
        assert len(content) > 200, name
        assert "/" in kind
    json.loads(file_of("search.geojson", made_from)[0])


def test_what_cannot_be_had_says_why() -> None:
    first = reasons(materials("first-answer"))
    assert (
        first["search.gpx"] == first["search-card.pdf"] == "There is no search: nothing was told about where it lies."
    )
    assert first["kit.toml"] == "The case names no kit."
    assert first["brief.pdf"] is None
    broken = reasons(materials("quarry-outboard", plan=False))
    assert {name for name, reason in broken.items() if reason is None} == {"case.toml", "kit.toml"}
    for name in ("brief.html", "slate.pdf", "search.csv"):
        with pytest.raises(CallError, match="There is no plan"):
            file_of(name, materials("quarry-outboard", plan=False))


def test_an_unknown_file_is_refused() -> None:
    with pytest.raises(CallError, match="there are brief"):
        file_of("../secret", materials("first-answer"))


@pytest.mark.parametrize("name", ["quarry-outboard", "tidal-frame", "training-drum"])
def test_a_case_goes_out_and_comes_in(name: str) -> None:
    made_from = materials(name)
    texts = [file_of(file, made_from)[0].decode() for file in ("case.toml", "kit.toml")]
    assert take_in(*texts) == (made_from.case, made_from.kit)
    assert tomllib.loads(texts[0])["kit"] == "kit.toml"


def test_a_shipped_file_comes_in() -> None:
    case, kit = take_in((FILES / "tidal-frame.toml").read_text("utf-8"), (FILES / "kit.toml").read_text("utf-8"))
    assert (case, kit) == (case_of("tidal-frame"), kit_of({"kit": "kit.toml"}))


@pytest.mark.parametrize(
    ("case", "kit", "what"),
    [
        ("kit.toml", None, "this looks like a kit, not a case"),
        ("tidal-frame.toml", "tidal-frame.toml", "this looks like a case, not a kit"),
        ("training-drum.sealed.toml", None, "this is the sealed file of a lesson, not a case"),
    ],
)
def test_the_other_kind_of_file_is_refused(case: str, kit: str | None, what: str) -> None:
    texts = [(FILES / name).read_text("utf-8") for name in (case, kit) if name]
    with pytest.raises(CaseError, match=what):
        take_in(*texts)
    with pytest.raises(CaseError) as told:
        take_in(*texts)
    assert "wet" not in str(told.value)


def test_the_slates_are_small_and_carry_their_stops() -> None:
    from parbuckle.brief.slates import render_slates

    assert render_slates(planned("tidal-frame"), WRITTEN) == render_slates(planned("tidal-frame"), WRITTEN)
    with pytest.raises(CallError, match="no slate"):
        render_slates({}, WRITTEN)
