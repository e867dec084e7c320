"""The shipped case files load as they are; what they say arrives in SI."""

from __future__ import annotations

import importlib.util
import math
from pathlib import Path

import pytest

from parbuckle.case.read import LoadedCase, read_case, read_kit
from parbuckle.case.written import answered
from parbuckle.quantity.errors import CaseError

CASES = Path(__file__).parents[2] / "src" / "parbuckle" / "data" / "cases"


def load(name: str) -> LoadedCase:
    return read_case(CASES / f"{name}.toml")


@pytest.mark.parametrize("name", ["first-answer", "quarry-outboard", "tidal-frame", "training-drum"])
def test_loads(name: str) -> None:
    loaded = load(name)
    assert loaded.case.case.title
    assert len(loaded.digest) == 32
    assert (loaded.kit is None) == (name == "first-answer")


def test_quarry() -> None:
    loaded = load("quarry-outboard")
    case, kit = loaded.case, loaded.kit
    assert kit is not None
    assert case.site.depth is not None
    assert case.site.depth.mid == 16.0
    assert case.site.water is not None
    assert (case.site.water.mid, case.site.water.text) == (0.0, "fresh")
    assert case.site.temperature is not None
    assert case.site.temperature.mid == pytest.approx(281.15)
    assert case.account[1].from_ is not None
    assert case.account[1].bearing is not None
    assert math.degrees(case.account[1].bearing.mid) == pytest.approx(28.0)
    assert case.object.part[0].mass is not None
    assert case.object.part[0].mass.low == 42.0
    assert case.object.bed.days is not None
    assert case.object.bed.days.mid == 4.0
    assert case.lift.bags is None
    assert case.lift.rate.target is not None
    assert case.lift.rate.target.mid == pytest.approx(0.1)
    assert case.exposure.gradient == (0.5, 0.8)
    assert kit.cylinder[0].fills is not None
    assert kit.cylinder[0].fills.in_.mid == 14.0
    assert kit.bag[0].attachment is not None
    assert kit.bag[0].attachment.mid == pytest.approx(120 * 9.80665)


def test_tidal_frame_says_what_is_unknown() -> None:
    loaded = load("tidal-frame")
    assert loaded.said_unknown == ("permission.insurer", "hazards.protected")
    assert not answered(loaded.case.hazards.protected)
    assert answered(loaded.case.hazards.electrics)
    assert loaded.case.lift.restraint is not None
    assert loaded.case.lift.restraint.anchor is not None
    assert loaded.case.lift.restraint.anchor.mid == 70.0
    assert loaded.case.site.shore is not None
    assert [depth.mid for _, depth in loaded.case.site.shore.profile] == [23.0, 13.0, 0.5]


def test_unknown_counts_as_left_out_and_is_remembered(tmp_path: Path) -> None:
    changes = {
        'bottom = "soft mud"': "site.bottom",
        'depth_how = "sounded"': "site.depth_how",
        'depth = "16 m"': "site.depth",
        'method = "accompanied"': "lift.method",
        'cylinder = "L7"': "lift.cylinder",
        'bags = "choose"': "lift.bags",
        'material = "steel"': "object.part[2].material",
        "start = 2027-04-14T10:00:00+01:00": "dive[1].start",
        'line_to_surface = "HAUL"': "surface.line_to_surface",
        'sure = "guess"': "account[2].sure",
    }
    text = (CASES / "quarry-outboard.toml").read_text(encoding="utf-8")
    for old in changes:
        text = text.replace(old, f'{old.partition(" = ")[0]} = "unknown"', 1)
    (tmp_path / "kit.toml").write_bytes((CASES / "kit.toml").read_bytes())
    (tmp_path / "case.toml").write_text(text, encoding="utf-8")
    loaded = read_case(tmp_path / "case.toml")
    case = loaded.case
    assert set(loaded.said_unknown) == set(changes.values())
    assert case.site.bottom is case.site.depth_how is case.site.depth is case.lift.cylinder is case.lift.bags is None
    assert case.object.part[1].material is case.dive[0].start is case.account[1].sure is None
    assert case.lift.method == "choose"


def test_the_sealed_file_is_never_opened(tmp_path: Path) -> None:
    for name in ("training-drum.toml", "kit.toml"):
        (tmp_path / name).write_bytes((CASES / name).read_bytes())
    loaded = read_case(tmp_path / "training-drum.toml")
    assert loaded.sealed == tmp_path / "training-drum.sealed.toml"
    assert not loaded.sealed.exists()


def test_a_sealed_file_given_as_a_case_tells_nothing() -> None:
    with pytest.raises(CaseError) as caught:
        read_case(CASES / "training-drum.sealed.toml")
    assert "sealed" in str(caught.value)
    for secret in ("drum", "gravel", "27.6", "12.2", "44.8"):
        assert secret not in str(caught.value).replace("training-drum.sealed.toml", "").lower()


def test_a_kit_alone() -> None:
    kit = read_kit(CASES / "kit.toml")
    assert [bag.id for bag in kit.bag] == ["C25", "C15", "C10", "F30", "P50", "P100-1", "P100-2"]
    assert kit.person[1].spans.hand is not None
    with pytest.raises(CaseError, match="kit"):
        read_case(CASES / "kit.toml")


def test_models_are_frozen() -> None:
    case = load("first-answer").case
    with pytest.raises(ValueError, match="frozen"):
        case.kit = "other.toml"


def test_the_digest_follows_case_and_kit(tmp_path: Path) -> None:
    for name in ("quarry-outboard.toml", "kit.toml"):
        (tmp_path / name).write_bytes((CASES / name).read_bytes())
    first = read_case(tmp_path / "quarry-outboard.toml").digest
    kit = tmp_path / "kit.toml"
    kit.write_text(kit.read_text(encoding="utf-8").replace("200 bar", "190 bar"), encoding="utf-8")
    assert read_case(tmp_path / "quarry-outboard.toml").digest != first


def test_lengths_by_hand_and_arm_become_metres(tmp_path: Path) -> None:
    text = """schema = 1
[[trainee]]
name = "Mika"
spans = { hand = "0.20 m", arms = "1.8 ± 0.1 m" }
[[object.measured]]
by = "Mika"
shape = "box"
length = "0.5 arms"
width = "2 ± 0.5 hand"
height = "1.5 hand"
"""
    path = tmp_path / "hand.toml"
    path.write_text(text, encoding="utf-8")
    row = read_case(path).case.object.measured[0]
    assert row.length is not None
    assert row.width is not None
    assert row.height is not None
    assert (row.length.low, row.length.mid, row.length.high) == pytest.approx((0.85, 0.9, 0.95))
    assert (row.width.low, row.width.mid, row.width.high) == pytest.approx((0.3, 0.4, 0.5))
    assert row.height.kind == "length"
    assert row.height.mid == pytest.approx(0.3)


def test_the_format_reference_is_current() -> None:
    root = Path(__file__).parents[2]
    spec = importlib.util.spec_from_file_location("make_format_reference", root / "tools" / "make_format_reference.py")
    assert spec is not None
    assert spec.loader is not None
    tool = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(tool)
    assert (root / "docs" / "format.md").read_text(encoding="utf-8") == tool.reference()
