"""The whole plan makes sense: changed through the text of a shipped case, as a supervisor would change it."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from guard.tree import PACKAGE
from parbuckle.desk.planning import plan

G = 9.80665
CASES = PACKAGE / "data" / "cases"
EXACT = (
    ('mass = "46 ± 4 kg"\nmaterial = "aluminium"', 'mass = "46 kg"\nvolume = "17 l"'),
    ('mass = "9 ± 2 kg"\nmaterial = "steel"', 'mass = "9 kg"\nvolume = "1.2 l"'),
    ('mass = "4 ± 1 kg"\nmaterial = "plastic"', 'mass = "4 kg"\nvolume = "3.5 l"'),
    ('volume = "9 ± 2 l"\nflooded = "90..100 %"', 'volume = "9 l"\nflooded = "100 %"'),
)
MOTION = ("tries = 2 ", 'as_point = true\ndrag_area = "0.3 m2"\nadded_mass = "40 kg"\nsurplus = "1 kg"\ntries = 2 ')


def planned(folder: Path, *changes: tuple[str, str], n: int = 256, seed: int = 1, kit: Any = ()) -> dict[str, Any]:
    """Plan the quarry case with some of its text, or of its kit's, replaced."""
    for name, pairs in (("quarry-outboard", changes), ("kit", kit)):
        text = (CASES / f"{name}.toml").read_text(encoding="utf-8")
        for old, new in pairs:
            assert old in text, old
            text = text.replace(old, new)
        (folder / f"{name}.toml").write_text(text, encoding="utf-8")
    return plan(folder / "quarry-outboard.toml", n, seed)


def test_heavier_never_needs_less_gas(tmp_path: Path) -> None:
    told = [planned(tmp_path, ('mass = "46 ± 4 kg"', f'mass = "{m} ± 4 kg"')) for m in (40, 43, 46, 49, 52)]
    for key in ("required_kg", "bag_volume_l"):
        likely = [d["lift"][key]["likely"] for d in told]
        assert likely == sorted(likely)
    same = [d for d in told if [b["id"] for b in d["lift"]["bags"]] == ["C25", "C15", "C10"]]
    gas = [d["lift"]["free_gas_l"]["likely"] for d in same]
    assert len(same) >= 2
    assert gas == sorted(gas)


def test_deeper_never_needs_less_free_gas(tmp_path: Path) -> None:
    told = [planned(tmp_path, ('depth = "16 m" ', f'depth = "{d} m" ')) for d in (6, 10, 16, 24, 40)]
    gas = [d["lift"]["free_gas_l"]["likely"] for d in told]
    assert gas == sorted(gas)
    assert len(set(gas)) == len(gas)


def test_salt_water_carries_more_of_the_load(tmp_path: Path) -> None:
    fresh, sea = planned(tmp_path), planned(tmp_path, ('water = "fresh" ', 'water = "sea" '))
    assert sea["load"]["wet_weight_kg"]["likely"] < fresh["load"]["wet_weight_kg"]["likely"]
    assert sea["site"]["bottom_pressure_pa"] > fresh["site"]["bottom_pressure_pa"]


def test_a_cylinder_on_the_load_and_more_tries_cost_more(tmp_path: Path) -> None:
    plain = planned(tmp_path)["lift"]
    carried = planned(tmp_path, ('cylinder_goes = "stays on the bottom" ', 'cylinder_goes = "on the load" '))["lift"]
    thrice = planned(tmp_path, ("tries = 2 ", "tries = 3 "))["lift"]
    assert carried["required_kg"]["likely"] > plain["required_kg"]["likely"]
    assert thrice["free_gas_l"]["likely"] > plain["free_gas_l"]["likely"]


def test_the_order_of_parts_bags_and_people_does_not_matter(tmp_path: Path) -> None:
    def turned(name: str, heads: tuple[str, ...]) -> str:
        text = (CASES / f"{name}.toml").read_text(encoding="utf-8")
        for head in heads:
            pieces = text.split(f"{head}\n")
            rows = [p.partition("\n\n")[0] for p in pieces[1:]]
            tails = [p.partition("\n\n")[2] for p in pieces[1:]]
            text = pieces[0] + "".join(f"{head}\n{r}\n\n{t}" for r, t in zip(rows[::-1], tails, strict=True))
        return text

    first = planned(tmp_path)
    (tmp_path / "quarry-outboard.toml").write_text(turned("quarry-outboard", ("[[object.part]]",)), encoding="utf-8")
    (tmp_path / "kit.toml").write_text(turned("kit", ("[[bag]]", "[[person]]")), encoding="utf-8")
    second = plan(tmp_path / "quarry-outboard.toml", 256, 1)
    for section in ("site", "load", "lift", "ascent", "surface", "circles"):
        assert json.dumps(first[section]) == json.dumps(second[section]), section


def test_the_same_seed_gives_the_same_bytes_and_another_does_not(tmp_path: Path) -> None:
    one, two, other = planned(tmp_path), planned(tmp_path), planned(tmp_path, seed=2)
    assert json.dumps(one) == json.dumps(two)
    assert one["load"]["wet_weight_kg"] != other["load"]["wet_weight_kg"]


@pytest.mark.parametrize(
    ("section", "key"),
    [("load", "wet_weight_kg"), ("load", "breakout_kg"), ("lift", "required_kg"), ("lift", "bag_volume_l")],
)
def test_sixteen_times_the_draws_move_a_band_within_its_sampling_error(tmp_path: Path, section: str, key: str) -> None:
    n = 512
    many = [planned(tmp_path, n=n, seed=s)[section][key] for s in range(1, 13)]
    more = planned(tmp_path, n=16 * n)[section][key]
    for end, share in (("low", 0.05), ("likely", 0.5), ("high", 0.95)):
        seen = [band[end] for band in many]
        # bound by order statistics: the share below a quantile of n free draws spreads by sqrt(p (1 - p) / n)
        spread = (more["high"] - more["low"]) / (2 * 1.645)
        density = np.exp(-0.5 * {0.5: 0.0}.get(share, 1.645) ** 2) / np.sqrt(2 * np.pi) / spread
        error = np.sqrt(share * (1 - share) / n) / density
        assert abs(seen[0] - more[end]) < 5.0 * error
        assert abs(float(np.mean(seen)) - more[end]) < 5.0 * error


def test_exact_inputs_give_one_ascent_as_a_tight_reference_does(tmp_path: Path) -> None:
    kit = tuple(
        (f'really = "{a}"', f'really = "{b}"') for a, b in (("26.1 ± 0.6 l", "26.1 l"), ("15.4 ± 0.5 l", "15.4 l"))
    )
    told = planned(tmp_path, *EXACT, MOTION, ('bags = "choose" ', 'bags = ["C25", "C15"] '), kit=kit)
    alone = told["ascent"]["left_alone"]
    assert alone["time_s"]["low"] == pytest.approx(alone["time_s"]["high"], rel=1e-12)

    rho, air = told["site"]["water_density_kg_m3"], told["site"]["surface_pressure_pa"]
    required = told["lift"]["required_kg"]["likely"]
    gas_weight = 0.02896546 / 8.314462618 / 281.15

    def at(depth: float) -> float:
        return float(air + rho * G * depth)

    start = (required + 1.0) / (rho - at(16.0) * gas_weight)
    part = start - 0.0261

    def slope(_t: float, y: np.ndarray[Any, Any]) -> list[float]:
        depth, rise = y
        p = at(depth)
        volume = 0.0261 + min(part * at(16.0) / p, 0.0154)
        held = sum(
            c * min(10e3, max(0.0, v * at(16.0) / c - p)) for c, v in ((0.0261, 0.0261), (0.0154, part))
        )  # closed bags hold the weight of gas up to their relief pressure
        force = (rho - p * gas_weight) * G * volume - G * gas_weight * held - required * G
        return [-rise, (force - 0.5 * rho * 0.3 * rise * abs(rise)) / (59.0 + rho * 0.009 + 40.0)]

    def up(_t: float, y: np.ndarray[Any, Any]) -> float:
        return float(y[0])

    up.terminal = True  # type: ignore[attr-defined]
    run = solve_ivp(slope, (0.0, 300.0), [16.0, 0.0], method="DOP853", rtol=1e-10, atol=1e-10, events=up, max_step=0.1)
    assert alone["time_s"]["likely"] == pytest.approx(run.t[-1], rel=1e-3)
    assert alone["arrival_speed_m_s"]["likely"] == pytest.approx(run.y[1, -1], rel=1e-3)


@pytest.mark.parametrize(("holds", "over"), [(500.0, -21.7), (625.0, 103.3)])
def test_the_steel_flange_of_the_safety_flash(tmp_path: Path, holds: float, over: float) -> None:
    """IMCA Safety Flash 11/02: 600 kg of steel under a bag of 500 kg stays, under one of 625 kg runs away."""
    litres = holds / 1.025
    (tmp_path / "kit.toml").write_text(
        f'schema = 1\n[[bag]]\nid = "B"\nstyle = "open"\ncapacity = "500 l"\n'
        f'really = "{litres} l"\nin_water = "0 kg"\n',
        encoding="utf-8",
    )
    (tmp_path / "flange.toml").write_text(
        'schema = 1\nkit = "kit.toml"\n[site]\nwater = "sea"\n'
        'temperature = "10 degC"\ndepth = "19 m"\nbottom = "rock"\n'
        '[object]\nname = "flange"\n[[object.part]]\nname = "steel"\nmass = "600 kg"\nvolume = "76.43 l"\n'
        '[lift]\nmethod = "accompanied"\nbags = ["B"]\nrigging_mass = "0 kg"\n',
        encoding="utf-8",
    )
    told = plan(tmp_path / "flange.toml", 64, 1)
    assert told["lift"]["required_kg"]["likely"] == pytest.approx(600 - 1.0269 * 76.43, abs=0.2)
    assert told["lift"]["chance_floats_once_free"] == (0.0 if over < 0.0 else 1.0)
    assert (told["ascent"]["left_alone"]["time_s"] is None) is (over < 0.0)
    if over > 0.0:
        assert told["ascent"]["runaway_bound_m_s"] > 1.0
