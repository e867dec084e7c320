"""The brief as a reader meets it: order, states, signs, fonts, and no number that the document does not hold."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from typing import Any

import pytest
from sample_document import variants

from parbuckle.brief.figures import figures_of
from parbuckle.brief.first_page import first_page
from parbuckle.brief.render import brief_view, render_brief
from parbuckle.brief.states import holding_stops
from parbuckle.quantity.errors import CallError

WRITTEN = "2027-04-13 22:10 +01:00"
NAMES = sorted(variants())
NINE, SIXTEEN = 9.0, 16.0
QUESTION_MARK = 24 / 3  # the sign inside the square of UNANSWERED belongs to the shape

MakePdf = Callable[[bytes], Any]


@pytest.mark.parametrize("paper", ["a4", "us-letter"])
@pytest.mark.parametrize("name", NAMES)
def test_every_document_is_a_tagged_pdf_with_its_fonts(name: str, paper: str, pdf: MakePdf) -> None:
    made = pdf(render_brief(variants()[name], WRITTEN, paper))
    assert made.info("Tagged") == "yes"
    rows = made.fonts()
    assert rows
    assert all(row[-5] == "yes" for row in rows), rows
    assert any("SourceSansPro" in row[0] for row in rows)


@pytest.mark.parametrize("paper", ["a4", "us-letter"])
@pytest.mark.parametrize("name", ["whole", "stops", "imperial", "training", "sparse"])
def test_what_everybody_reads_stands_on_one_page(name: str, paper: str, pdf: MakePdf) -> None:
    pages = pdf(render_brief(variants()[name], WRITTEN, paper)).pages()
    assert "Emergency" in pages[0]
    assert "For the supervisor" in pages[1]
    assert "For the supervisor" not in pages[0]


def test_long_texts_go_on_a_second_page_and_nothing_is_lost(pdf: MakePdf) -> None:
    document = variants()["long"]
    pages = pdf(render_brief(document, WRITTEN)).pages()
    assert "Steps" in pages[1]
    text = " ".join(pages)
    assert text.count("Say it aloud and wait for the answer.") == len(document["steps"])


ORDER = (
    "STOP: 2 stops hold",
    "The bag would be filled",
    "UNANSWERED",
    "Method",
    "Clock",
    "Earliest in",
    "Latest off the bottom",
    "Weight in the water",
    "Bags, marks",
    "Stop filling at",
    "Left over when it lets go",
    "Caught by",
    "Lift gas",
    "keep clear within",
    "People",
    "Steps",
    "Signals",
    "Abort",
    "Emergency",
    "52 28.926 N",
)


def test_page_one_keeps_its_order(pdf: MakePdf) -> None:
    page = pdf(render_brief(variants()["stops"], WRITTEN)).pages()[0]
    place = 0
    for words in ORDER:
        found = page.find(words, place)
        assert found >= place, f"{words!r} does not come after the part before it"
        place = found


def test_a_stop_stands_on_every_page_with_its_words(pdf: MakePdf) -> None:
    document = variants()["stops"]
    pages = pdf(render_brief(document, WRITTEN)).pages()
    for page in pages:
        assert "STOP" in page
        for text in holding_stops(document):
            assert text in page


def test_a_lifted_stop_is_named_and_does_not_count(pdf: MakePdf) -> None:
    pages = pdf(render_brief(variants()["stops"], WRITTEN)).pages()
    assert "one try only; we come back tomorrow" in pages[0]
    assert "Lift gas is short" not in pages[-1]


def test_without_a_stop_no_page_says_it(pdf: MakePdf) -> None:
    pages = pdf(render_brief(variants()["whole"], WRITTEN)).pages()
    assert all("STOP" not in page for page in pages)
    assert "No stop found in what you told me." in pages[0]


@pytest.mark.parametrize("name", NAMES)
def test_every_page_carries_title_version_time_number_and_cautions(name: str, pdf: MakePdf) -> None:
    document = variants()[name]
    pages = pdf(render_brief(document, WRITTEN)).pages()
    for number, page in enumerate(pages, start=1):
        assert document["case"]["title"] in page
        assert "parbuckle 0.1.0" in page
        assert WRITTEN in page
        assert f"page {number} of {len(pages)}" in page
        for line in document["cautions_footer"]:
            assert line in page


def test_signs_of_a_typesetting_language_are_printed(pdf: MakePdf) -> None:
    text = " ".join(pdf(render_brief(variants()["long"], WRITTEN)).pages())
    assert "Frame #1 *with* $signs$ @home <tag> [x] \\ _under_ `code` //" in text


def test_a_name_that_reads_like_an_order_changes_nothing_else(pdf: MakePdf) -> None:
    document = variants()["whole"]
    document["case"]["title"] = '#panic("no") #read("brief.typ") #let view = none'
    page = pdf(render_brief(document, WRITTEN)).pages()[0]
    assert '#panic("no") #read("brief.typ") #let view = none' in page.replace("“", '"').replace("”", '"')


@pytest.mark.parametrize("name", NAMES)
def test_same_input_same_bytes(name: str) -> None:
    assert render_brief(variants()[name], WRITTEN) == render_brief(variants()[name], WRITTEN)


def test_another_time_is_another_file() -> None:
    document = variants()["whole"]
    assert render_brief(document, WRITTEN) != render_brief(document, "2027-04-13 22:11 +01:00")


def test_the_chosen_units_come_first(pdf: MakePdf) -> None:
    metric = pdf(render_brief(variants()["whole"], WRITTEN)).pages()[0]
    imperial = pdf(render_brief(variants()["imperial"], WRITTEN)).pages()[0]
    assert metric.index("(34 to 40)") < metric.index("(75 to 88)")
    assert imperial.index("(75 to 88)") < imperial.index("(34 to 40)")


def test_no_number_is_invented(pdf: MakePdf) -> None:
    """Every number of page one is one of the view's own texts, and those come from the document through ``shown``."""
    document = variants()["whole"]
    view = brief_view(document, WRITTEN)
    allowed = set(_numbers(" ".join(_texts(view))))
    allowed |= {str(number) for number in range(1, 4)}  # pages
    for page in pdf(render_brief(document, WRITTEN)).pages():
        assert set(_numbers(page)) <= allowed


def test_a_changed_value_changes_the_page(pdf: MakePdf) -> None:
    document = variants()["whole"]
    document["load"]["wet_weight_kg"] = {"low": 71.0, "likely": 77.0, "high": 79.0}
    page = pdf(render_brief(document, WRITTEN)).pages()[0]
    assert "(71 to 79)" in page
    assert "(34 to 40)" not in page


def test_absent_parts_say_so_and_bring_no_number() -> None:
    view = first_page({})
    assert view["weight"] is None
    assert view["gas"] is None
    assert view["let_go"] is None
    assert not [number for text in _texts(view) for number in _numbers(text)]


def test_an_empty_document_still_makes_a_brief(pdf: MakePdf) -> None:
    page = pdf(render_brief({}, WRITTEN)).pages()[0]
    assert "not known" in page
    assert "Local rules and the supervisor on site come first." in page


def test_a_document_without_a_fan_has_no_ascent_picture() -> None:
    document = variants()["whole"]
    assert brief_view(document, WRITTEN)["second"]["picture"] is not None
    del document["ascent"]["fan"]
    assert brief_view(document, WRITTEN)["second"]["picture"] is None


def test_the_slate_has_eight_lines_in_big_type(pdf: MakePdf) -> None:
    document = variants()["whole"]
    made = pdf(render_brief(document, WRITTEN))
    pages = made.pages()
    slate = pages[-1].replace(" ", "")
    for row in document["slate"]:
        assert row["label"].replace(" ", "") in slate
        assert row["value"].replace(" ", "") in slate
    assert made.info("Page size").startswith("595")
    sizes = made.sizes(len(pages))
    assert min(size for size in sizes if size > NINE) >= SIXTEEN
    assert "(" not in slate


@pytest.mark.parametrize("name", ["whole", "stops", "long", "imperial"])
def test_no_word_is_smaller_than_nine_points(name: str, pdf: MakePdf) -> None:
    made = pdf(render_brief(variants()[name], WRITTEN))
    for number in range(1, len(made.pages()) + 1):
        small = [size for size in made.sizes(number) if size < NINE]
        assert all(size <= QUESTION_MARK for size in small), small
        assert len(small) <= 1, small


def test_an_unknown_paper_is_refused() -> None:
    with pytest.raises(CallError, match="a4"):
        render_brief(variants()["whole"], WRITTEN, "a5")


def test_figures_say_not_known_for_nothing() -> None:
    figures = figures_of({"case": {"units": "metric"}})
    assert figures.one(None, "mass") == "not known"
    assert figures.band(None, "mass") == "not known"
    assert figures.both(None, "mass") == "not known"
    assert figures.parts(None, "mass") is None


def _texts(view: Any) -> Iterator[str]:
    if isinstance(view, dict):
        for value in view.values():
            yield from _texts(value)
    elif isinstance(view, list):
        for value in view:
            yield from _texts(value)
    elif isinstance(view, str):
        yield view if not view.startswith("<svg") else " ".join(re.findall(r">([^<]+)<", view))


def _numbers(text: str) -> list[str]:
    return re.findall(r"\d+(?:[.,]\d+)*", text)
