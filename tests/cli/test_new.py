"""``parbuckle new``: the starter, the shipped examples, and files that are never touched."""

from __future__ import annotations

import re
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

from parbuckle.case.read import read_case
from parbuckle.desk.starting import example_names, new_case
from parbuckle.quantity.errors import CallError

Call = Callable[..., "subprocess.CompletedProcess[str]"]
EXAMPLES = ("first-answer", "mooring-block", "quarry-outboard", "tidal-frame", "training-drum")


def test_the_examples_are_the_shipped_cases() -> None:
    assert example_names() == EXAMPLES


def test_the_starter_loads(tmp_path: Path) -> None:
    out = tmp_path / "mine.toml"
    assert new_case(out) == (out,)
    assert read_case(out).case.case.title == "Anchor under the jetty"


def test_every_line_of_the_starter_can_be_switched_on(tmp_path: Path) -> None:
    out = tmp_path / "mine.toml"
    new_case(out)
    new_case(tmp_path / "other.toml", "quarry-outboard")  # brings kit.toml
    everything, switched = re.subn(r"(?m)^#(?=\S)", "", out.read_text("utf-8"))
    assert switched > 30
    out.write_text(everything, "utf-8")
    case = read_case(out).case
    assert case.hazards is not None
    assert case.object is not None
    assert case.object.part[0].material == "steel"


@pytest.mark.parametrize("name", EXAMPLES)
def test_an_example_comes_with_its_kit_and_loads(name: str, tmp_path: Path) -> None:
    out = tmp_path / "mine.toml"
    written = new_case(out, name)
    assert {p.name for p in tmp_path.iterdir()} == {p.name for p in written}
    assert ("kit.toml" in {p.name for p in written}) == ("kit =" in out.read_text("utf-8"))
    read_case(out)


def test_a_sealed_file_is_not_handed_out(tmp_path: Path) -> None:
    new_case(tmp_path / "mine.toml", "training-drum")
    assert not list(tmp_path.glob("*sealed*"))


def test_an_existing_file_is_never_touched(tmp_path: Path) -> None:
    out = tmp_path / "mine.toml"
    out.write_text("mine", "utf-8")
    with pytest.raises(CallError, match=r"mine\.toml exists already"):
        new_case(out)
    assert out.read_text("utf-8") == "mine"


def test_another_kit_is_never_touched_and_nothing_is_written(tmp_path: Path) -> None:
    (tmp_path / "kit.toml").write_text("mine", "utf-8")
    with pytest.raises(CallError, match=r"kit\.toml exists already"):
        new_case(tmp_path / "mine.toml", "quarry-outboard")
    assert [p.name for p in tmp_path.iterdir()] == ["kit.toml"]
    assert (tmp_path / "kit.toml").read_text("utf-8") == "mine"


def test_the_same_kit_serves_a_second_case(tmp_path: Path) -> None:
    new_case(tmp_path / "a.toml", "quarry-outboard")
    assert new_case(tmp_path / "b.toml", "tidal-frame") == (tmp_path / "b.toml",)


def test_a_dangling_link_is_not_followed(tmp_path: Path) -> None:
    link = tmp_path / "mine.toml"
    link.symlink_to(tmp_path / "elsewhere.toml")
    with pytest.raises(CallError, match="exists already"):
        new_case(link)
    assert not (tmp_path / "elsewhere.toml").exists()


def test_an_unknown_name_lists_the_names(tmp_path: Path) -> None:
    with pytest.raises(CallError, match="Did you mean tidal-frame") as error:
        new_case(tmp_path / "mine.toml", "tidal-fram")
    assert all(name in str(error.value) for name in EXAMPLES)
    for name in ("kit", "../cases/first-answer", "training-drum.sealed", ""):
        if name:
            with pytest.raises(CallError, match="There is no example"):
                new_case(tmp_path / "mine.toml", name)


def test_a_missing_folder_is_said(tmp_path: Path) -> None:
    with pytest.raises(CallError, match="does not exist"):
        new_case(tmp_path / "nowhere" / "mine.toml")


def test_the_command(parbuckle: Call, tmp_path: Path) -> None:
    done = parbuckle("new", "mine.toml", "--from", "quarry-outboard")
    assert (done.returncode, done.stdout) == (0, "")
    assert (tmp_path / "kit.toml").exists()
    again = parbuckle("new", "mine.toml")
    assert again.returncode == 1
    assert "exists already" in again.stderr
