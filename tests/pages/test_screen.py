"""The terminal answer: one screen, the order of page one, plain when piped."""

from __future__ import annotations

import io

import pytest
from rich.console import Console
from sample_document import Document, variants

from parbuckle.brief.range_line import text_line
from parbuckle.cli.screen import show

WIDE, NARROW, LINES = 100, 80, 42


def _shown(document: Document, width: int = WIDE) -> str:
    out = io.StringIO()
    show(document, Console(file=out, width=width, highlight=False, emoji=False, markup=False))
    return out.getvalue()


@pytest.mark.parametrize("width", [WIDE, NARROW])
@pytest.mark.parametrize("name", sorted(variants()))
def test_no_line_is_wider_than_the_screen(name: str, width: int) -> None:
    assert max(len(line) for line in _shown(variants()[name], width).splitlines()) <= width


def test_a_usual_answer_is_one_screen() -> None:
    assert len(_shown(variants()["whole"]).splitlines()) <= LINES


def test_it_is_plain_without_a_terminal() -> None:
    text = _shown(variants()["stops"])
    assert "\x1b" not in text
    assert "⯃ STOP" in text
    assert "[?] UNANSWERED" in text
    assert "△ CAUTION" in text


def test_a_terminal_without_colour_gets_none() -> None:
    out = io.StringIO()
    show(variants()["stops"], Console(file=out, width=WIDE, force_terminal=True, no_color=True))
    assert "\x1b[3" not in out.getvalue().replace("\x1b[3m", "")
    assert "STOP" in out.getvalue()


def test_it_keeps_the_order_of_page_one() -> None:
    text = _shown(variants()["stops"])
    labels = ("⯃ STOP", "[?] UNANSWERED", "Method", "Clock", "Weight", "Bags", "Lets go", "Lift gas", "People", "Steps")
    lines = text.splitlines()
    places = [next(n for n, line in enumerate(lines) if line.startswith(label)) for label in labels]
    assert places == sorted(places)


def test_without_a_stop_it_says_so_in_plain_words() -> None:
    text = _shown(variants()["whole"])
    assert "No stop found in what you told me." in text
    assert "STOP" not in text


def test_every_stop_and_every_stop_point_is_there() -> None:
    document = variants()["stops"]
    text = " ".join(_shown(document).split())
    for finding in document["findings"]:
        if finding["level"] in ("stop", "unanswered"):
            assert finding["text"] in text
    for step in document["steps"]:
        assert (step["text"] in text) == step["stop_point"]


def test_what_to_find_out_leads_where_much_is_open() -> None:
    document = variants()["whole"]
    assert "First" not in _shown(document)
    asked = [{"level": "unanswered", "code": f"q{n}", "text": f"Not answered: question {n}?"} for n in range(5)]
    document["findings"] += asked
    lines = _shown(document).splitlines()
    first = next(n for n, line in enumerate(lines) if line.startswith("First"))
    assert first < next(n for n, line in enumerate(lines) if line.startswith("[?] UNANSWERED"))
    assert document["measure_again"] in lines[first]


def test_the_same_first_words_are_said_once() -> None:
    document = variants()["whole"]
    document["findings"] = [
        {"level": "unanswered", "code": f"q{n}", "text": text}
        for n, text in enumerate(("Not answered: a?", "Not answered: b?", "Not set: c.", "Not answered: d?"))
    ]
    text = " ".join(_shown(document).split())
    assert "Not answered: a? [?] b? [?] Not set: c. [?] Not answered: d?" in text


def test_the_first_cautions_are_told_in_full_the_others_in_short() -> None:
    document = variants()["whole"]
    document["findings"] = [{"level": "caution", "code": f"c{n}", "text": f"Caution {n}. Do {n}."} for n in range(5)]
    text = " ".join(_shown(document).split())
    assert all(f"Caution {n}." in text for n in range(5))
    assert [n for n in range(5) if f"Do {n}." in text] == [0, 1, 2]


def test_text_in_brackets_is_printed_not_read_as_a_style() -> None:
    document = variants()["whole"]
    document["case"]["title"] = "[bold]Anchor[/bold] :anchor:"
    assert "[bold]Anchor[/bold] :anchor:" in _shown(document)


def test_an_empty_document_is_not_known() -> None:
    text = _shown({})
    assert "not known" in text
    assert "Local rules and the supervisor on site come first." in text


def test_the_range_line_keeps_its_places() -> None:
    line = text_line({"low": 0.0, "likely": 0.5, "high": 1.0}, 21)
    assert line[0] == "├"
    assert line[10] == "┼"
    assert line[-1] == "┤"
    assert len(text_line({"low": 0.1, "likely": 0.1, "high": 0.1}, 21, 0.9)) == len(line)
