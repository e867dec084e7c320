"""Every unit word of the table against pint, and the table against its script."""

from __future__ import annotations

import importlib.util
from pathlib import Path
from types import ModuleType

import pint
import pytest

from parbuckle.quantity.kinds import all_kinds, kind
from parbuckle.quantity.units import HINTS, Unit, from_si, to_si, words


def _tool(root: Path, name: str) -> ModuleType:
    spec = importlib.util.spec_from_file_location(name, root / "tools" / f"{name}.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_the_table_is_what_its_script_writes(root: Path) -> None:
    tool = _tool(root, "make_unit_words")
    written = {dim: {word: (u.factor, u.offset) for word, u in words(dim).items()} for dim in tool.MEANINGS}
    assert written == {dim: {w: tuple(pair) for w, pair in rows.items()} for dim, rows in tool.table().items()}


def test_every_word_agrees_with_pint_in_floating_point(root: Path) -> None:
    tool = _tool(root, "make_unit_words")
    registry = pint.UnitRegistry()
    for dimension, (target, meanings) in tool.MEANINGS.items():
        for word, meaning in meanings.items():
            unit = words(dimension)[word]
            for number in (0.0, 1.0, 37.5):
                if dimension == "temperature":
                    theirs = registry.Quantity(number, meaning).to(target).magnitude
                else:
                    theirs = (number * registry.parse_expression(meaning)).to(target).magnitude
                assert to_si(number, unit) == pytest.approx(theirs, rel=1e-12, abs=1e-12), (dimension, word)


def test_numbers_that_everybody_knows() -> None:
    # exact by definition: international foot and pound, nautical mile 1852 m, standard gravity 9.80665 m/s2
    assert words("length")["ft"].factor == 0.3048
    assert words("length")["fathom"].factor == pytest.approx(6 * 0.3048, rel=1e-15)
    assert words("mass")["lb"].factor == 0.45359237
    assert words("speed")["kn"].factor == pytest.approx(1852 / 3600, rel=1e-15)
    assert words("force")["kg"].factor == 9.80665
    assert words("volume")["US gal"].factor == pytest.approx(231 * 0.0254**3, rel=1e-15)
    assert words("volume")["imp gal"].factor == 0.00454609
    assert to_si(212.0, words("temperature")["degF"]) == pytest.approx(373.15, rel=1e-13)


@pytest.mark.parametrize("dimension", ["length", "mass", "temperature", "speed", "pressure", "volume", "force"])
def test_there_and_back(dimension: str) -> None:
    for unit in words(dimension).values():
        assert from_si(to_si(12.5, unit), unit) == pytest.approx(12.5, rel=1e-12)


def test_every_kind_has_words_and_ordered_limits() -> None:
    for sort in all_kinds().values():
        assert sort.floor < sort.ceiling, sort.name
        assert sort.meaning, sort.name
        assert sort.units or sort.name in ("days", "number")
        assert sort.allowed


def test_hints_are_for_words_that_no_kind_allows() -> None:
    allowed = {word for sort in all_kinds().values() for word in sort.units}
    assert not allowed & set(HINTS)


def test_physical_limits() -> None:
    assert kind("mass").floor == 0.0
    assert (kind("share").floor, kind("share").ceiling) == (0.0, 1.0)
    assert kind("pressure").floor == 0.0
    assert kind("temperature").floor == pytest.approx(213.15)
    assert kind("net_lift").floor < 0.0


def test_an_unknown_dimension_or_kind_is_an_error() -> None:
    with pytest.raises(KeyError):
        words("colour")
    with pytest.raises(KeyError):
        kind("colour")
    assert isinstance(words("length")["m"], Unit)
