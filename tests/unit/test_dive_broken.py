"""Dives written wrongly: each has its one clear message, at its key; and dives that cannot be dived have a finding."""

from __future__ import annotations

from pathlib import Path

import pytest

from parbuckle.case.read import read_case
from parbuckle.duties.facts import Facts
from parbuckle.duties.finding import Finding
from parbuckle.duties.house import load_house
from parbuckle.duties.judge import judge
from parbuckle.plan.asking import Asking
from parbuckle.plan.diving import with_dives
from parbuckle.plan.facts_dives import diving_facts
from parbuckle.plan.site_inputs import site_draws
from parbuckle.plan.stages import Stages
from parbuckle.quantity.draws import Ensemble
from parbuckle.quantity.errors import CaseError

SEARCH_TASK = '{ do = "search", by = ["Ines", "Tomas"], time = "10..16 min", effort = "easy" }'
MARK_TASK = '{ do = "mark and measure", by = ["Ines", "Tomas"], time = "4 min", effort = "easy" }'
EARLIER = '{ person = "Tomas", depth = "18 m", time = "24 min", gas = "EAN32", surfaced = 2027-05-09T06:20:00+01:00 }'
SECOND = "start = 2027-05-10T10:20:00+01:00"
INES = '{ person = "Ines", role = "searcher", cylinder = "D12-1" }'
D12 = """[[cylinder]]
id = "D12-1"
use = "breathing"
volume = "12 l"
count = 2                         # a twin set
pressure = "220 bar"
gas = "EAN32\""""


def task(old: str, new: str) -> tuple[str, str]:
    """The search task with one thing changed."""
    return SEARCH_TASK, SEARCH_TASK.replace(old, new)


def earlier(old: str, new: str) -> tuple[str, str]:
    """The earlier dive with one thing changed."""
    return EARLIER, EARLIER.replace(old, new)


def set_of(old: str, new: str) -> tuple[str, str]:
    """The set of Ines with one thing changed."""
    return D12, D12.replace(old, new)


GRADIENT = "gradient = [0.50, 0.80]"
STOP = 'stop = { depth = "5 m", time = "3 min" }'
INES_RATES = 'resting_rate = "17 l/min"         # free gas at the surface\nworking_rate = "32 l/min"'

BROKEN = {
    "oxygen over 100 %": (set_of("EAN32", "EAN150"), "cylinder", "breathing gas"),
    "gas over 100 %": (set_of("EAN32", "50/60"), "cylinder", "breathing gas"),
    "oxygen under air": (set_of("EAN32", "EAN15"), "cylinder", "breathing gas"),
    "a gas by its trade name": (set_of("EAN32", "nitrox"), "cylinder", "EAN32"),
    "negative time": (task("10..16 min", "-3 min"), "dive[1].tasks[1].time", "0"),
    "time without unit": (task("10..16 min", "10..16"), "dive[1].tasks[1].time", "unit"),
    "time in metres": (task("10..16 min", "10 m"), "dive[1].tasks[1].time", "time"),
    "time that falls": (task("10..16 min", "16..10 min"), "dive[1].tasks[1].time", "16..10"),
    "start without offset": (("09:25:00+01:00", "09:25:00"), "dive[1].start", "offset"),
    "start in words": (("2027-05-09T09:25:00+01:00", '"at slack"'), "dive[1].start", "at slack"),
    "stop above the water": ((STOP, STOP.replace("5 m", "-5 m")), "exposure.stop.depth", "-5"),
    "stop in words": ((STOP, STOP.replace("3 min", "three")), "exposure.stop.time", "three"),
    "factors the wrong way round": ((GRADIENT, "gradient = [0.80, 0.50]"), "exposure.gradient", "low one first"),
    "factor over one": ((GRADIENT, "gradient = [0.50, 1.20]"), "exposure.gradient", "up to 1"),
    "one factor": ((GRADIENT, "gradient = [0.50]"), "exposure.gradient", "two numbers"),
    "factors as text": ((GRADIENT, 'gradient = ["0.5", "0.8"]'), "exposure.gradient", "two numbers"),
    "end without offset": (earlier("06:20:00+01:00", "06:20:00"), "exposure.earlier[1].surfaced", "offset"),
    "earlier dive above the water": (earlier("18 m", "-18 m"), "exposure.earlier[1].depth", "-18"),
    "earlier gas": (earlier("EAN32", "EAN3"), "exposure.earlier[1].gas", "breathing gas"),
    "earlier dive of nobody": (earlier("Tomas", "Thomas"), "exposure.earlier[1].person", "did you mean 'Tomas'"),
    "earlier dive without end": (
        earlier(", surfaced = 2027-05-09T06:20:00+01:00", ""),
        "exposure.earlier[1].surfaced",
        "counts from its end",
    ),
    "earlier dive after the start": (
        earlier("09T06:20", "09T09:30"),
        "exposure.earlier[1].surfaced",
        "has not surfaced",
    ),
    "somebody unknown": ((INES, INES.replace("Ines", "Inez")), "dive[1].team[1].person", "did you mean 'Ines'"),
    "role unknown": ((INES, INES.replace("searcher", "seeker")), "dive[1].team[1].role", "searcher"),
    "lift gas to breathe": ((INES, INES.replace("D12-1", "L12")), "dive[1].team[1].cylinder", "anybody breathes from"),
    "one set for two": ((INES, INES.replace("D12-1", "D12-2")), "dive[1].team[2].cylinder", "two divers"),
    "task by nobody": (task('"Ines", "Tomas"', '"Sefa"'), "dive[1].tasks[1].by[1]", "this dive's team"),
    "checked by nobody": (task('effort = "easy"', 'check = "Sefa"'), "dive[1].tasks[1].check", "this dive's team"),
    "effort unknown": (task('"easy"', '"hard"'), "dive[1].tasks[1].effort", "work"),
    "purpose unknown": (('does = "search"', 'does = "fish"'), "dive[1].does", "lift"),
    "key unknown": (task("effort", "efort"), "dive[1].tasks[1].efort", "did you mean 'effort'"),
    "truth as text": (task('effort = "easy"', 'meanwhile = "yes"'), "dive[1].tasks[1].meanwhile", "yes"),
    "pressure below nothing": (set_of("220 bar", "-20 bar"), "cylinder", "-20"),
    "no volume": (set_of("12 l", "0 l"), "cylinder", "0 l"),
    "no cylinder in the set": (set_of("count = 2", "count = 0"), "cylinder", "0"),
    "somebody who does not breathe": ((INES_RATES, INES_RATES.replace("17", "0")), "person[2].resting_rate", "0"),
    "rate as volume": ((INES_RATES, INES_RATES.replace("32 l/min", "32 l")), "person[2].working_rate", "32 l"),
    "dives that overlap": ((SECOND, "start = 2027-05-09T09:30:00+01:00"), "dive[2].start", "two dives at once"),
    "task under the bottom": (
        task('effort = "easy"', 'depth = "40 m"'),
        "dive[1].tasks[1].depth",
        "deeper than the bottom",
    ),
    "two places at once": (
        (MARK_TASK, MARK_TASK.replace("}", ", meanwhile = true }")),
        "dive[1].tasks[2].by",
        "two places at once",
    ),
    "meanwhile, but first": (
        task('effort = "easy"', "meanwhile = true"),
        "dive[1].tasks[1].meanwhile",
        "no task before it",
    ),
    "house figure without unit": ((GRADIENT, GRADIENT + "\n[house]\nbreathing_left = 50"), "house", "unit"),
}

ODD = {
    "MOD exceeded": (set_of("EAN32", "EAN50"), "oxygen_high"),
    "more oxygen than any limit": (set_of("EAN32", "EAN80"), "oxygen_exposure_over"),
    "a depth with a slip, far beyond any law": (('depth = "23.0 m"', 'depth = "110 m"'), "oxygen_high"),
    "hypoxic at the surface": (set_of("EAN32", "10/70"), "oxygen_low"),
    "cylinder empty": (set_of("220 bar", "40 bar"), "breathing_empty"),
    "reserve in no filling": (set_of('"12 l"', '"1 l"'), "breathing_empty"),
    "no cylinder": ((INES, INES.replace(', cylinder = "D12-1"', "")), "breathing_unknown"),
    "helium": (set_of("EAN32", "21/35"), "table_silent"),
    "too long": (task("10..16 min", "50..60 min"), "stops_due"),
}


def written(folder: Path, root: Path, old: str, new: str) -> Path:
    """Write case and kit with one change in one of them."""
    cases, found = root / "src" / "parbuckle" / "data" / "cases", 0
    for name in ("tidal-frame.toml", "kit.toml"):
        text = (cases / name).read_text(encoding="utf-8")
        found += text.count(old)
        (folder / name).write_text(text.replace(old, new, 1), encoding="utf-8")
    assert found, f"nothing to change: {old}"
    assert old != new
    return folder / "tidal-frame.toml"


def said(path: Path) -> tuple[Finding, ...]:
    """Give the findings on the dives."""
    loaded = read_case(path)
    house = load_house(loaded.case.house)
    asking = Asking(Ensemble(16, 1))
    site = site_draws(loaded.case, asking, None)
    stages = with_dives(Stages(loaded, house, asking, None, site))
    return judge(Facts(diving=diving_facts(stages)), house)


@pytest.mark.parametrize("name", BROKEN)
def test_one_clear_message_at_its_key(name: str, root: Path, tmp_path: Path) -> None:
    (old, new), key, says = BROKEN[name]
    path = written(tmp_path, root, old, new)
    with pytest.raises(CaseError) as caught:
        said(path)
    message = str(caught.value)
    assert key in message
    assert says in message
    assert message.count("given") <= 1, "more than one message"


@pytest.mark.parametrize("name", ODD)
def test_what_cannot_be_dived_is_found(name: str, root: Path, tmp_path: Path) -> None:
    (old, new), code = ODD[name]
    assert code in [finding.code for finding in said(written(tmp_path, root, old, new))]


def test_there_are_forty() -> None:
    assert len(BROKEN) >= 40


def test_the_shipped_case_says_none_of_it(root: Path, tmp_path: Path) -> None:
    path = written(tmp_path, root, "Vellan Sound", "Another Sound")
    assert not {code for _, code in ODD.values()} & {finding.code for finding in said(path)}
