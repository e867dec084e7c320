"""From the case to the search: every kind of account, every way of seeing, limits, passes; and what is refused."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from parbuckle.quantity.errors import CaseError
from parbuckle.quantity.rounding import THIN
from sample_search import HEAD, POINT, QUICK, answer, case

NORTH = 52.48210 + 100.0 / 111_265.0  # 100 m north of the datum, near enough
AT = "{{ lat = {}, lon = -3.71540 }}".format
BEARING = f"""[[account]]
who = "an angler"
from = {AT(52.48210)}
bearing = "%s"
distance = "80..120 m"
"""
MAGNETIC = HEAD + 'declination = "-5 deg"\n'
CIRCLES = """[[search.pass]]
pattern = "circles"
centre = { lat = 52.48210, lon = -3.71540 }
spacing = "2 m"
radius = "19 m"
"""


def middle(told: dict) -> tuple[float, float]:  # type: ignore[type-arg]
    row = told["accounts"][0]
    return row["centre_east_m"], row["centre_north_m"]


def spread(told: dict) -> tuple[float, float, float, float]:  # type: ignore[type-arg]
    east, north = zip(*told["dots"], strict=True)
    return min(east), min(north), max(east), max(north)


def test_a_point_is_a_circular_normal_round_it() -> None:
    told = case()
    assert middle(told) == (0.0, 0.0)
    assert told["accounts"][0]["radius95_m"] == 20.0
    assert told["chance_on_map"] == pytest.approx(0.9, abs=0.002)
    assert sum(math.hypot(*p) < 20.0 for p in told["dots"]) / len(told["dots"]) == pytest.approx(0.95, abs=0.02)


def test_a_bearing_points_where_it_says() -> None:
    told = case(BEARING % "90 ± 5 deg")
    east, north = middle(told)
    assert (east, north) == pytest.approx((100.0, 0.0), abs=1.0)
    west, south, _, up = spread(told)
    assert west > 75.0
    assert max(-south, up) < 25.0
    assert told["accounts"][0]["radius95_m"] is None
    assert "distance over water" in told["cautions"][0]


def test_a_magnetic_bearing_is_turned_by_the_declination() -> None:
    plain, turned = (middle(case(BEARING % "95 ± 5 deg")), middle(case(BEARING % "95 ± 5 deg mag", head=MAGNETIC)))
    assert math.degrees(math.atan2(*plain)) == pytest.approx(95.0, abs=0.2)
    assert math.degrees(math.atan2(*turned)) == pytest.approx(90.0, abs=0.2)


def test_a_typed_declination_turns_every_heading() -> None:
    told = case(head=MAGNETIC)
    assert told["declination_deg"] == pytest.approx(-5.0)
    leg = told["best"]["legs"][1]
    assert (leg["heading_mag_deg"] - leg["heading_true_deg"]) % 360.0 == pytest.approx(5.0)
    assert "typed" in told["declination_words"]


def test_the_model_names_the_day() -> None:
    assert "2027-04-10, World Magnetic Model" in case()["declination_words"]


def test_without_a_day_there_is_no_magnetic_heading() -> None:
    told = case(head=HEAD.replace("lost = 2027-04-10T16:30:00+01:00\n", ""))
    assert told["declination_deg"] is None
    assert told["best"]["legs"][0]["heading_mag_deg"] is None


def test_a_track_lies_along_its_line() -> None:
    told = case(f'[[account]]\nwithin = "6 m"\nalong = [{AT(52.48210)}, {AT(NORTH)}]\n')
    west, south, east, north = spread(told)
    assert north - south == pytest.approx(110.0, abs=12.0)
    assert east - west < 25.0
    assert told["accounts"][0]["who"] == "account 1"


def test_an_area_is_even_inside() -> None:
    ring = f"[{AT(52.48210)}, {AT(NORTH)}, {{ lat = {NORTH}, lon = -3.71393 }}, {{ lat = 52.48210, lon = -3.71393 }}]"
    told = case(f"[[account]]\narea = {ring}\n")
    west, south, east, north = spread(told)
    assert (west, south) == pytest.approx((0.0, 0.0), abs=2.0)
    assert (east, north) == pytest.approx((100.0, 100.0), abs=3.0)


def test_only_an_area_is_a_map_as_well() -> None:
    ring = f"area = [{AT(52.48210)}, {AT(NORTH)}, {{ lat = {NORTH}, lon = -3.71393 }}]\n"
    told = case("", ring)
    assert told["accounts"][0]["who"] == "the area"
    assert told["area"] is not None
    assert told["closed_share"] < 0.05


def test_what_sank_through_a_stream_lies_down_stream() -> None:
    sank = 'sank_through = { speed = "0.5 m/s", towards = "90 deg", shape = "box", sinks_at = "0.5 m/s" }\n'
    told = case(POINT + sank)
    east = [p[0] for p in told["dots"]]
    assert sum(east) / len(east) == pytest.approx(7.0 / 8.0 * 12.0, abs=1.5)
    assert "sank" in told["accounts"][0]["words"]


def test_weights_are_shared_out() -> None:
    told = case(POINT + 'sure = "sure"\n' + POINT.replace("helm", "crew").replace("20 m", "60 m") + 'sure = "guess"\n')
    assert [row["weight"] for row in told["accounts"]] == pytest.approx([0.8, 0.2])
    assert "one account" in told["cautions"][0]


def test_the_sweep_width_says_where_it_comes_from() -> None:
    def seen(more: str, head: str = HEAD) -> dict:  # type: ignore[type-arg]
        return case(quick=QUICK.replace('sweep_width = "3 m"\n', more), head=head)

    clear = HEAD + 'visibility = "2 m"\n'
    by_sight = seen("", clear)
    assert "visibility 2 m" in by_sight["sweep_words"]
    assert not by_sight["tried_on_sample"]
    assert by_sight["seen_at_m"] == 2.0
    small = seen('size = "0.01 m"\n', clear)
    assert small["sweep_width_m"]["likely"] < by_sight["sweep_width_m"]["likely"]
    sharp = seen('contrast = "high"\n', clear)
    assert sharp["sweep_width_m"]["likely"] == pytest.approx(3.6)
    trial = seen('trial = { seen_at = "1.5 m", speed = "0.25 m/s" }\ncontrast = "high"\n', clear)
    assert trial["tried_on_sample"]
    assert trial["sweep_width_m"]["likely"] == pytest.approx(2.7)
    fast = seen('trial = { seen_at = "1.5 m", speed = "0.125 m/s" }\ncontrast = "high"\n', clear)
    assert fast["sweep_width_m"]["likely"] == pytest.approx(1.35)
    touch = seen('by = "touch"\n')
    assert touch["sweep_words"] == "by touch"
    assert 1.2 * 0.7 <= touch["sweep_width_m"]["low"] < touch["sweep_width_m"]["high"] <= 1.8 * 0.9
    soft = seen('by = "touch"\n', HEAD + 'bottom = "soft mud"\n')
    assert soft["sweep_width_m"]["high"] <= 1.8 * 0.6


def test_a_law_changes_the_chance() -> None:
    laws = ("random", "inverse cube", "half-normal")
    chances = [case(more=f'law = "{law}"\n')["best"]["chance"] for law in laws]
    assert chances == sorted(set(chances))


def test_water_that_is_too_deep_is_closed() -> None:
    shore = '[site.shore]\nbearing = "0 deg"\nprofile = [["0 m", "12 m"], ["40 m", "0 m"]]\n'
    told = case(more='deepest = "11 m"\n', head=HEAD + shore)
    assert told["closed_share"] > 0.3
    assert all(north > 2.0 for _, north in told["dots"])


def test_a_short_line_keeps_the_circles_small() -> None:
    told = case(more='line = "8 m"\n')
    assert max(told["best"]["line_marks_m"]) <= 8.0


def test_kicks_are_counted_with_the_own_kick() -> None:
    quick = QUICK.replace('"circles"', '"expanding square"').replace("3 m", "4 m")
    head = HEAD + 'visibility = "4 m"\n'
    one = [leg["kick_cycles"] for leg in case(quick=quick, head=head)["best"]["legs"]]
    two = [leg["kick_cycles"] for leg in case(quick=quick + 'kick = "0.75 m"\n', head=head)["best"]["legs"]]
    assert sum(two) == pytest.approx(2 * sum(one), rel=0.1)


def test_a_wall_a_shore_and_a_boat_open_their_patterns() -> None:
    told = case(quick=QUICK.replace('["circles"]', '["along a wall", "arcs", "towed diver"]'))
    assert told["best"] is None
    assert [row["why_not"].split(",")[0] for row in told["alternatives"]] == [
        "it needs a wall",
        "it needs a shore",
        "it needs a boat",
    ]
    lines = f"wall = [{AT(52.48205)}, {AT(52.48230)}]\nstands = [{AT(52.48200)}]\nboat = true\n"
    open_ones = case(more=lines, quick=QUICK.replace('["circles"]', '["along a wall", "arcs"]'))
    assert {open_ones["best"]["pattern"], open_ones["alternatives"][0]["pattern"]} == {"along a wall", "arcs"}


def test_minutes_come_from_the_search_task() -> None:
    tasks = '{ do = "search", time = "10..20 min" }, { do = "mark", time = "4 min" }'
    dive = f'[[dive]]\ndoes = "search"\ntasks = [{tasks}]\n'
    told = case(more=dive, quick=QUICK.replace('minutes = "20 min"\n', ""))
    assert told["minutes"] == 15.0
    assert case(quick=QUICK.replace('minutes = "20 min"\n', ""))["minutes"] == 40.0
    assert answer(HEAD + POINT + QUICK, 12.0)["search"]["minutes"] == 12.0


# ---- passes --------------------------------------------------------------------------------------------------------


def test_a_pass_proves_something_and_elsewhere_grows() -> None:
    before, told = case(), case(more=CIRCLES)
    had = told["passes"][0]["chance_it_had"]
    assert 0.4 < had < 0.9
    assert told["elsewhere"] == pytest.approx(before["elsewhere"] / (1.0 - had))
    assert told["chance_on_map"] + told["elsewhere"] == pytest.approx(1.0, abs=1e-12)
    proved = told["proved"]
    assert proved["covered_share"] == pytest.approx(had / before["chance_on_map"])
    assert proved["elsewhere_now"] == told["elsewhere"]
    assert "if it can be seen at 1.5 m" in proved["words"].replace(THIN, " ")
    assert told["best"]["chance"] < before["best"]["chance"]


def test_half_a_pass_proves_less() -> None:
    whole, half, none = (
        case(more=CIRCLES + f'completed = "{share} %"\n')["passes"][0]["chance_it_had"] for share in (100, 50, 0)
    )
    assert none == 0.0
    assert 0.3 * whole < half < whole


def test_the_order_of_passes_does_not_matter() -> None:
    away = CIRCLES.replace("52.48210", "52.48225")
    one, two = case(more=CIRCLES + away), case(more=away + CIRCLES)
    assert one["elsewhere"] == pytest.approx(two["elsewhere"], abs=1e-12)
    assert one["best"]["chance"] == pytest.approx(two["best"]["chance"], abs=1e-9)


def test_a_pass_without_measures_is_the_one_that_was_proposed() -> None:
    before, told = case(), case(more='[[search.pass]]\npattern = "circles"\n')
    assert told["passes"][0]["chance_it_had"] == pytest.approx(before["best"]["chance"], abs=0.02)


@pytest.mark.parametrize(
    "more",
    [
        'pattern = "jackstay"\nlength = "30 m"\nspacing = "2 m"\nlanes = 15\nheading = "30 deg"\n',
        'pattern = "compass lanes"\nlength = "30 m"\nspacing = "2 m"\nlanes = 15\nheading = "30 deg mag"\n',
        'pattern = "expanding square"\nspacing = "2 m"\nlanes = 24\n',
        'pattern = "sector"\nradius = "20 m"\n',
    ],
)
def test_every_pattern_with_measures_can_be_typed(more: str) -> None:
    told = case(more=f"[[search.pass]]\ncentre = {AT(52.48210)}\n{more}")
    assert 0.15 < told["passes"][0]["chance_it_had"] < 0.9
    assert told["passes"][0]["from"] == "typed"


def test_a_typed_line_is_a_pass() -> None:
    line = f"[[search.pass]]\nalong = [{AT(52.48190)}, {AT(52.48230)}]\n"
    told = case(more=line)
    assert told["passes"][0]["pattern"] == "track"
    assert 0.02 < told["passes"][0]["chance_it_had"] < 0.3
    wider = case(more=line + 'sweep_width = "6 m"\n')
    assert wider["passes"][0]["chance_it_had"] > told["passes"][0]["chance_it_had"]
    loose = case(more=line + 'float_line = "18 m"\n')
    assert loose["passes"][0]["chance_it_had"] < told["passes"][0]["chance_it_had"]


def test_a_track_of_a_file_is_a_pass(tmp_path: Path) -> None:
    rows = "\n".join(f"{52.48190 + k * 0.0001:.5f},{-3.7154 + (-1) ** k * 0.0002:.5f}" for k in range(5))
    (tmp_path / "float.csv").write_text(f"lat,lon\n{rows}\n", encoding="utf-8")
    path = tmp_path / "case.toml"
    path.write_text(f'{HEAD}{POINT}{QUICK}[[search.pass]]\ntrack = "float.csv"\n', encoding="utf-8")
    from parbuckle.desk.searching import search

    told = search(path, draws=64)["search"]
    assert told["passes"][0]["from"] == "track"
    assert told["passes"][0]["chance_it_had"] > 0.1


def test_after_many_passes_it_is_time_to_stop() -> None:
    told = case(more=CIRCLES * 8)
    assert "ask the witnesses again" in told["proved"]["stop_words"]
    assert told["elsewhere"] > 0.5


# ---- what is refused -----------------------------------------------------------------------------------------------

WRONG = {
    "a magnetic bearing with no declination": (
        HEAD.replace("lost = 2027-04-10T16:30:00+01:00\n", "") + BEARING % "90 deg mag" + QUICK,
        "needs the declination",
        "account[1].bearing",
    ),
    "a pass of nothing": (HEAD + POINT + QUICK + "[[search.pass]]\n", "a pattern, places along it", "search.pass[1]"),
    "a pass that is not whole": (
        HEAD + POINT + QUICK + '[[search.pass]]\npattern = "circles"\nspacing = "2 m"\n',
        "needs centre, spacing, radius",
        "search.pass[1]",
    ),
    "measures of a wall": (
        HEAD + POINT + QUICK + '[[search.pass]]\npattern = "along a wall"\nspacing = "2 m"\n',
        "no measures of its own",
        "search.pass[1]",
    ),
    "a pattern that cannot be swum here": (
        HEAD + POINT + QUICK + '[[search.pass]]\npattern = "towed diver"\n',
        "cannot be swum here",
        "search.pass[1].pattern",
    ),
    "an unknown shape": (
        HEAD + POINT + 'sank_through = { shape = "cow" }\n' + QUICK,
        "box",
        "account[1].sank_through.shape",
    ),
    "an unknown pattern": (HEAD + POINT + QUICK.replace("circles", "spirals"), "circles", "search.only[1]"),
}


@pytest.mark.parametrize("name", WRONG)
def test_what_is_wrong_is_said_with_its_key(name: str) -> None:
    text, words, key = WRONG[name]
    with pytest.raises(CaseError) as caught:
        answer(text)
    assert words in str(caught.value)
    assert key in str(caught.value)


def test_a_place_far_away_is_refused() -> None:
    with pytest.raises(CaseError, match="50000"):
        answer(HEAD + POINT.replace("52.48210", "10.0") + QUICK)


def test_an_account_that_is_not_whole_is_asked_for() -> None:
    told = answer(HEAD + POINT + '[[account]]\nwho = "a boy"\nbearing = "10 deg"\n' + QUICK)
    assert [row["key"] for row in told["unanswered"]] == ["account[2]"]
    assert len(told["search"]["accounts"]) == 1


def test_nobody_told_anything() -> None:
    told = answer(HEAD)
    assert "search" not in told
    assert told["verdict"]
