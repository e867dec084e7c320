"""The brief as one HTML file: whole, the texts of the print, nothing from outside, stops on what is carried away."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest

from parbuckle.brief.html_page import write_brief_html
from parbuckle.brief.render import brief_view
from parbuckle.brief.states import holding_stops
from parbuckle.desk.briefing import write_brief
from sample_documents import ALL, planned

WRITTEN = "2027-04-13 22:10 +01:00"
VOID = {"meta", "input", "line", "br"}


class Page(HTMLParser):
    """The page taken apart: its tags, ids, links and words."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.ids: list[str] = []
        self.links: list[str] = []
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.words: list[str] = []
        self.feed(text)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        told = dict(attrs)
        self.tags.append((tag, told))
        self.ids += [told["id"] or ""] if "id" in told else []
        self.links += [told["href"] or ""] if "href" in told else []
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        self.ids += [value or "" for key, value in attrs if key == "id"]

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        if "style" not in self.open:
            self.words.append(data)

    @property
    def text(self) -> str:
        return " ".join(" ".join(self.words).split())


def part_of(text: str, mark: str) -> str:
    return text.split(f'<section id="{mark}">')[1].split('<section id="')[0]


def bare(text: Any) -> str:
    return " ".join(str(text).replace("\u202f", " ").split())


@pytest.mark.parametrize("name", ALL)
def test_the_page_is_whole_and_asks_nothing_from_outside(name: str) -> None:
    text = write_brief_html(planned(name), WRITTEN)
    page = Page(text)
    assert not page.open
    assert len(page.ids) == len(set(page.ids))
    assert all(link.startswith("#") and link[1:] in page.ids for link in page.links)
    assert not {tag for tag, _ in page.tags} & {"script", "link", "img", "iframe", "object", "embed", "form"}
    assert not re.findall(r"(?:src|href|url\()\s*=?\s*[\"']?(?!#)[a-z]+:", text)
    assert set(re.findall(r"https?://[^\"\s]+", text)) <= {"http://www.w3.org/2000/svg"}
    assert text == write_brief_html(planned(name), WRITTEN)


@pytest.mark.parametrize("name", ALL)
def test_what_stands_in_print_stands_on_the_page(name: str) -> None:
    document = planned(name)
    page = bare(Page(write_brief_html(document, WRITTEN)).text)
    view = brief_view(document, WRITTEN)
    first, frame = view["first"], view["frame"]
    texts = [
        frame["title"],
        frame["version"],
        WRITTEN,
        *frame["cautions"],
        first["states"]["line"],
        first["abort_action"],
    ]
    texts += [row["text"] for key in ("stops", "unanswered", "cautions", "notes") for row in first["states"][key]]
    texts += [step["text"] for side in first["steps"] for step in side]
    texts += [row["name"] for row in first["people"]] + first["abort"] + first["signals"]
    texts += [row["value"] for row in first["emergency"]] + [row["value"] for row in view["slate"]]
    texts += [row["id"] for row in first["bags"]["rows"]] + [row["formula"] for row in view["second"]["sums"]]
    texts += [dive["title"] for dive in view["dives"]] + [
        row["leave"] for dive in view["dives"] for row in dive["divers"]
    ]
    texts += view["second"]["sources"]
    assert len(texts) > 60
    assert not [text for text in texts if bare(text) not in page]


@pytest.mark.parametrize("name", ALL)
def test_stops_stand_on_everything_that_is_carried_away(name: str) -> None:
    document = planned(name)
    text = write_brief_html(document)
    stops = holding_stops(document)
    assert bool(stops) == (name == "tidal-frame")
    for stop in stops:
        assert text.index(stop) < text.index("<h3>Method")
        for mark in ("steps", "slate"):
            assert stop in part_of(text, mark)


def test_states_are_shape_and_word() -> None:
    text = write_brief_html(planned("tidal-frame"))
    for level, word in (("stop", "STOP"), ("unanswered", "UNANSWERED"), ("caution", "CAUTION"), ("note", "Note")):
        rows = re.findall(rf'<ul class="states {level}">(.*?)</ul>', text)
        assert rows
        for row in rows:
            items = row.count("<li>")
            assert row.count('class="shape"') == row.count(f"<b>{word}</b>") == items


def test_texts_of_a_user_never_run() -> None:
    document = planned("quarry-outboard")
    evil = '<img src=x onerror="alert(1)">'
    document["case"]["title"] = document["load"]["name"] = document["people"][0]["name"] = evil
    document["findings"][0]["text"] = document["search"]["accounts"][0]["who"] = evil
    text = write_brief_html(document, evil)
    assert "<img" not in text
    assert "&lt;img" in text
    assert not Page(text).open


@pytest.mark.parametrize(
    "section", ["load", "lift", "ascent", "dives", "search", "sketch", "people", "steps", "slate", "sums"]
)
def test_any_section_may_be_absent(section: str) -> None:
    document = planned("quarry-outboard")
    del document[section]
    page = Page(write_brief_html(document))
    assert not page.open
    assert all(link[1:] in page.ids for link in page.links)


def test_a_name_that_ends_in_html_gives_the_page(tmp_path: Path) -> None:
    out = tmp_path / "brief.html"
    write_brief(planned("first-answer"), out, WRITTEN)
    assert out.read_text(encoding="utf-8") == write_brief_html(planned("first-answer"), WRITTEN)


def test_an_empty_document_is_a_page_too() -> None:
    page = Page(write_brief_html({}))
    assert all(link[1:] in page.ids for link in page.links)
    assert "No stop found in what you told me." in page.text
    assert "Local rules and the supervisor on site come first." in page.text


def test_drawings_are_named_and_take_the_ink_of_the_page() -> None:
    text = write_brief_html(planned("quarry-outboard"))
    figures = re.findall(r"<figure.*?</figure>", text, re.DOTALL)
    assert len(figures) >= 6
    for figure in figures:
        assert re.search(r'role="img" aria-label="[^"]{10}', figure)
        assert "#000" not in figure
        assert "#fff" not in figure
        assert set(re.findall(r"url\(#(\w+)\)", figure)) <= set(re.findall(r'id="(\w+)"', figure))


def test_drawings_are_no_wider_than_a_phone() -> None:
    for name in ALL:
        widths = re.findall(r"max-width:(\d+)px", write_brief_html(planned(name)))
        assert all(int(width) <= 358 for width in widths), name  # 390 px less the margins of the page


def test_steps_can_be_ticked_and_are_named() -> None:
    document = planned("quarry-outboard")
    boxes = [told for tag, told in Page(write_brief_html(document)).tags if tag == "input"]
    assert [told["aria-label"] for told in boxes] == [f"Step {row['n']} done" for row in document["steps"]]


def contrast(one: str, other: str) -> float:
    def light(colour: str) -> float:
        parts = [int(colour[n : n + 2], 16) / 255 for n in (1, 3, 5)]
        r, g, b = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
        return 0.2126 * r + 0.7152 * g + 0.0722 * b

    high, low = sorted((light(one), light(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_inks_can_be_read_on_both_papers() -> None:
    style = write_brief_html({}).split("<style>")[1].split("@media print")[0]
    themes = re.findall(r":root \{(.*?)\}", style)
    assert len(themes) == 2
    for theme in themes:
        colours = dict(re.findall(r"--(\w+): (#\w{6})", theme))
        for ink in ("ink", "quiet", "accent", "stop"):
            assert contrast(colours[ink], colours["paper"]) >= 4.5, (ink, colours)
        assert contrast(colours["ink"], colours["paper"]) >= 10
