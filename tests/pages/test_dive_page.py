"""The dives on paper: one page each with its picture to scale, and the page for when something goes wrong."""

from __future__ import annotations

import copy
import re
from collections.abc import Callable
from functools import cache
from typing import Any

import pytest
from sample_dive_document import CARDS, WORDS, band, dive, diver, with_dives
from sample_document import sample, with_stops

from parbuckle.brief.dive_page import dive_pages
from parbuckle.brief.dive_picture import dive_picture, planned
from parbuckle.brief.emergency_page import emergency_page
from parbuckle.brief.render import brief_view, render_brief
from parbuckle.brief.states import holding_stops

WRITTEN = "2027-05-09 22:10 +01:00"
NINE = 9.0
CHANCE = re.compile(r"\b(of|in) (a hundred|100)\b|chance|\b\d\d+ (of|in) \d\d+|\d\d ?%")
ODD = "A #very *odd* $name$ <tag> [x] \\ _u_ `c` // and on"

MakePdf = Callable[[bytes], Any]
Document = dict[str, Any]


WINDOW = {
    "limit_m_s": 0.25,
    **{
        name: dict.fromkeys(("low", "likely", "high"), f"2027-05-10T10:{minute}+01:00")
        for name, minute in (("opens", 15), ("slack", 30), ("closes", 55))
    },
    "min": band(40.0, 40.0, 40.0),
    "needed_min": band(22.0, 28.0, 33.0),
    "chance_fits": 0.4814,
    "chance_fits_on_sight": 0.96,
    "slack_error_told": True,
    "start_when": "Start when the float stands upright.",
}


def many() -> Document:
    """Give a dive with more people, tasks and words than anybody would plan."""
    people = [diver(f"Maximiliana-Theodora {n}", chance_past_leave_pressure=0.2) for n in range(5)]
    tasks = [{"does": f"a task with a long name, number {n}", "min": band(1.0, 2.0, 3.0)} for n in range(9)]
    team = [{"name": p["name"], "role": "somebody with a long role"} for p in people]
    return dive(divers=people, tasks=tasks, team=team, does=ODD)


def documents() -> dict[str, Document]:
    """Give every document with dives by name."""
    imperial = with_dives()
    imperial["case"]["units"] = "imperial"
    stops = with_dives()
    stops["findings"] = with_stops()["findings"]
    unknown = dive(
        start=None,
        over_run=None,
        latest_leave_bottom=None,
        latest_from=None,
        always_stop=None,
        divers=[
            diver(
                "Ines",
                **dict.fromkeys(("start_bar", "leave_bottom_bar", "leaving_bar", "end_pressure_bar", "group_after")),
                no_stop_min={"model": None, "navy_table": None, "navy_known": False},
            )
        ],
    )
    unknown["no_stop_min"].update(model=None, navy_table=None, navy_known=False, shorter=None)
    unknown["way_up_min"] = band(2.6, 24.0 / 9.0, 2.8)
    return {
        "told": with_dives(dive(window=WINDOW), **WORDS),
        "imperial": imperial,
        "stops": stops,
        "unknown": with_dives(unknown, help="unknown"),
        "nobody": with_dives(dive(divers=[], team=[])),
        "many": with_dives(many(), **{key: f"{ODD}. {text * 4}" for key, text in WORDS.items()}),
    }


def only(pages: list[str], text: str) -> list[str]:
    return [page for page in pages if text in page]


@cache
def brief(name: str, paper: str = "a4") -> bytes:
    return render_brief(documents()[name], WRITTEN, paper)


PRINTED = [("imperial", "us-letter"), ("many", "us-letter"), *((name, "a4") for name in ("stops", "told", "unknown"))]


@pytest.mark.parametrize(("name", "paper"), PRINTED)
def test_each_dive_has_one_page_and_the_emergency_one(name: str, paper: str, pdf: MakePdf) -> None:
    document = documents()[name]
    made = pdf(brief(name, paper))
    pages = made.pages()
    count = len(document["dives"])
    for place in range(1, count + 1):
        assert len(only(pages, f"Dive {place} of {count}:")) == 1
    assert len(only(pages, "If something goes wrong")) == 1
    assert "Slate" in pages[-1]
    for number, page in enumerate(pages, start=1):
        assert f"page {number} of {len(pages)}" in page
        assert document["case"]["title"] in page
        assert all(text in page for text in holding_stops(document))
    first = pages.index(only(pages, f"Dive 1 of {count}:")[0]) + 1
    more = name == "many"  # five divers and nine tasks run on to a second page, and nothing is lost
    assert "If something goes wrong" in pages[first + count - 1 + more]
    assert "Slate" in pages[first + count + more]
    printed = "".join(pages[first - 1 : first + count - 1 + more])
    for told in document["dives"]:
        assert all(row["name"] in printed for row in told["divers"])
        assert all(task["does"] in printed for task in told["tasks"])
        assert told["caution"][:20] in printed
    for number in range(first, first + count + 1 + more):
        assert all(size >= NINE for size in made.sizes(number)), number


def test_without_dives_there_is_neither_page() -> None:
    nobody = brief_view(documents()["nobody"], WRITTEN)["dives"]
    assert (nobody[0]["divers"], nobody[0]["team"]) == ([], [])
    for document in (sample(), {**sample(), "dives": None}, {**sample(), "dives": []}):
        view = brief_view(document, WRITTEN)
        assert (view["dives"], view["emergency"]) == ([], None)


def test_people_in_the_water_get_no_chances(pdf: MakePdf) -> None:
    pages = pdf(brief("told")).pages()
    for page in (*only(pages, "Dive 1 of 1:"), *only(pages, "If something goes wrong")):
        assert not CHANCE.search(page), page
    assert "Slack 10:30" in only(pages, "Dive 1 of 1:")[0]


def test_a_risk_is_a_word_and_stands_only_where_it_is() -> None:
    page = dive_pages(with_dives(dive()), 533.0)[0]
    assert [row["watch"] for row in page["divers"]] == ["", "May pass the no-stop limit."]
    low = diver("Ines", chance_under_reserve=0.001, chance_empty=0.0)
    page = dive_pages(with_dives(dive(divers=[low])), 533.0)[0]
    assert page["divers"][0]["watch"] == "May come up under the reserve."


def test_pressures_go_to_the_safe_side() -> None:
    row = dive_pages(with_dives(dive()), 533.0)[0]["divers"][0]
    assert row["leave"].split()[0] == "75"  # 71.2, up to what a gauge shows
    assert row["leaving"].startswith("117")  # 117.6, down
    assert "(92 to 121)" in row["end"]  # 92.9, down


def test_the_page_says_when_who_and_how_long(pdf: MakePdf) -> None:
    (page,) = only(pdf(brief("told")).pages(), "Dive 1 of 1:")
    for text in (
        "10:20",
        "23 min (17 to 28)",
        "31 min",
        "by the model, the shorter",
        "10:51",
        "by the stream",
        "rig the frame",
        "12 min (8 to 15)",
        "Ines, bag tender",
        "If the work takes 10 min longer: bottom 33 min",
        "Tomas must leave before that.",
        "well aside of the load",
        "31 min / 48 min",
        "does not replace the divers' own computers",
    ):
        assert text.replace("'", "") in page.replace("\u202f", " ").replace("’", "").replace("'", ""), text


def test_the_tasks_run_from_the_surface_to_the_surface() -> None:
    rows = dive_pages(with_dives(dive()), 533.0)[0]["tasks"]
    assert [row["done"] for row in rows] == ["2", "14", "23", "29"]
    assert [row["n"] for row in rows] == ["", "1", "2", ""]


def corners(drawing: Document, width: str) -> list[tuple[float, float]]:
    """Give the points of the first line of a width."""
    found = re.search(rf'points="([^"]+)" fill="none" stroke="#000" stroke-width="{width}"', drawing["svg"])
    assert found is not None
    return [(float(x), float(y)) for x, y in (pair.split(",") for pair in found[1].split())]


@pytest.mark.parametrize("height", [150.0, 300.0])
def test_the_picture_is_to_scale(height: float) -> None:
    told = dive()
    way = planned(told)
    assert [minute for minute, _ in way] == pytest.approx([0, 2, 23, 23 + 19 / 9, 26 + 19 / 9, 26 + 24 / 9])
    assert [depth for _, depth in way] == [0, 24, 24, 5, 5, 0]
    drawn = corners(dive_picture(with_dives(told), told, 533.0, height), "1.9500000000000002")
    (x0, y0), (x1, y1) = drawn[0], drawn[2]
    across, down = (x1 - x0) / 23.0, (y1 - y0) / 24.0
    for (x, y), (minute, depth) in zip(drawn, way, strict=True):
        assert (x - x0, y - y0) == pytest.approx((minute * across, depth * down), abs=0.02)
    limit = re.search(
        r'points="([0-9.]+),[0-9.]+ [0-9., ]+" fill="none" stroke="#000" stroke-width="1.3" stroke-dash',
        drawing_of(told, height),
    )
    assert limit is not None
    assert float(limit[1]) - x0 == pytest.approx(31.4 * across, abs=0.02)


def drawing_of(told: Document, height: float) -> str:
    return str(dive_picture(with_dives(told), told, 533.0, height)["svg"])


@pytest.mark.parametrize(
    "stops", [[], [{"depth_m": 3.0, "min": 2.0}], [{"depth_m": 6.0, "min": 1.0}, {"depth_m": 3.0, "min": 4.0}]]
)
@pytest.mark.parametrize("with_usual", [True, False])
def test_the_way_up_takes_the_time_of_the_document(stops: list[Document], with_usual: bool) -> None:
    last = 24.0 / 9.0 + sum(stop["min"] for stop in stops) + (3.0 if with_usual else 0.0)
    told = dive(stops=stops, way_up_min=band(last, last, last))
    way = planned(told)
    assert way[-1] == (pytest.approx(23.0 + last), 0.0)
    assert [depth for _, depth in way[2:]] == sorted((depth for _, depth in way[2:]), reverse=True)
    assert [time for time, _ in way] == sorted(time for time, _ in way)


def test_a_limit_far_away_is_told_and_not_drawn() -> None:
    told = dive()
    told["no_stop_min"]["navy_table"] = 300.0
    drawing = dive_picture(with_dives(told), told, 533.0, 200.0)
    assert "No stop by the Navy table: 300 min, beyond the picture." in drawing["caption"]
    assert "until 300 min, Navy table" not in drawing["svg"]
    assert "no stop until 31 min, model" in drawing["svg"]
    assert "until 300 min by the Navy table" in drawing["alt"]


def test_the_longer_dive_is_dashed_and_only_where_it_is_told() -> None:
    told = dive()
    assert "late: up, 43 min" in drawing_of(told, 200.0)
    assert "4 min at 3" in drawing_of(told, 200.0)
    assert "Dashed: the work takes 10 min longer." in dive_picture(with_dives(told), told, 533.0, 200.0)["caption"]
    assert "late:" not in drawing_of(dive(over_run=None), 200.0)


def test_the_teams_own_words_are_printed_and_what_is_not_told_is_open(pdf: MakePdf) -> None:
    (page,) = only(pdf(brief("told")).pages(), "If something goes wrong")
    for text in (*WORDS.values(), "Gas fails", "Diver held", "Lift runs away", "Diver carried up", "Buddy lost"):
        assert text in page
    assert "Not told" not in page
    for card in CARDS:
        assert page.replace("’", "'").count(card["do"]) == 1
    twice = emergency_page(with_dives()) or {}
    assert [card["title"] for card in twice["cards"]].count("Buddy lost") == 1  # two dives, one card
    (bare,) = only(pdf(brief("stops")).pages(), "If something goes wrong")
    assert bare.count("Not told. Agree on it before anybody goes in") == 4


def test_the_block_says_whom_to_call_and_what_to_say(pdf: MakePdf) -> None:
    document = documents()["unknown"]
    (page,) = only(pdf(brief("unknown")).pages(), "If something goes wrong")
    for key in ("call", "position", "recall", "comms"):
        assert document["emergency"][key].replace("'", "’") in page.replace("'", "’")
    assert "not known" in page


def test_the_card_of_the_plan_stands_in_for_the_teams_words_on_a_runaway() -> None:
    document = with_dives()
    document["ascent"] = {"under_control": {"runaway_card": ["Let go.", "Swim across."]}}
    cards = {card["title"]: card for card in (emergency_page(document) or {})["cards"]}
    assert cards["Lift runs away"] == {"title": "Lift runs away", "texts": ["Let go.", "Swim across."], "told": True}
    document["emergency"]["runaway"] = "Our own words."
    cards = {card["title"]: card for card in (emergency_page(document) or {})["cards"]}
    assert cards["Lift runs away"]["texts"] == ["Our own words."]


def test_words_that_look_like_orders_are_printed_as_they_are(pdf: MakePdf) -> None:
    pages = pdf(brief("many", "us-letter")).pages()
    bare = ODD.replace(" ", "")
    assert bare in only(pages, "Dive 1 of 1:")[0].replace(" ", "")
    assert only(pages, "If something goes wrong")[0].replace(" ", "").count(bare) == 4


def test_drawing_changes_nothing_in_the_document_and_is_the_same_twice() -> None:
    document = with_dives()
    before = copy.deepcopy(document)
    assert dive_pages(document, 533.0) == dive_pages(document, 533.0)
    assert document == before
