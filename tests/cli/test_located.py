"""Errors that a stage raises name the file, the key and the line too."""

from __future__ import annotations

from pathlib import Path

import pytest

from parbuckle.desk.planning import plan
from parbuckle.quantity.errors import CaseError

CASES = Path(__file__).parents[2] / "src" / "parbuckle" / "data" / "cases"


def _write(folder: Path, change: tuple[str, str]) -> Path:
    text = (CASES / "quarry-outboard.toml").read_text(encoding="utf-8")
    assert change[0] in text
    (folder / "kit.toml").write_text((CASES / "kit.toml").read_text(encoding="utf-8"), encoding="utf-8")
    (folder / "mine.toml").write_text(text.replace(*change), encoding="utf-8")
    return folder / "mine.toml"


@pytest.mark.parametrize(
    ("change", "key", "says"),
    [
        (('material = "aluminium"', 'material = "alumimium"'), "object.part[1].material", "aluminium"),
        (('depth = "16 m" ', 'depth = "0.5 m" '), "lift.rigging", "shorter"),
    ],
)
def test_a_stage_error_names_file_key_and_line(tmp_path: Path, change: tuple[str, str], key: str, says: str) -> None:
    path = _write(tmp_path, change)
    with pytest.raises(CaseError) as caught:
        plan(path, 64)
    assert caught.value.file == str(path)
    assert caught.value.key == key
    assert caught.value.line
    assert says in str(caught.value)


def test_a_value_outside_a_law_names_the_file(tmp_path: Path) -> None:
    path = _write(tmp_path, ('temperature = "8 degC"', 'temperature = "60 degC"'))
    with pytest.raises(CaseError, match=r"mine\.toml"):
        plan(path, 64)


def test_an_unknown_house_rule_names_its_line(tmp_path: Path) -> None:
    path = _write(tmp_path, ("[limits]", '[house]\ncary_limit = "5 kg"\n\n[limits]'))
    with pytest.raises(CaseError, match="carry_limit") as caught:
        plan(path, 64)
    assert caught.value.line
