"""Where the app keeps its cases: the folder asked for, the demonstration apart, PostgreSQL by one address."""

from __future__ import annotations

from pathlib import Path

import pytest

from parbuckle.desk.home import HOME, find_home
from parbuckle.quantity.errors import CallError


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = tmp_path / "deep" / "home"
    monkeypatch.setenv(HOME, str(folder))
    return folder


def test_the_folder_is_made_and_the_demonstration_has_a_file_of_its_own(home: Path) -> None:
    assert find_home().store == f"sqlite:///{(home / 'cases.sqlite').as_posix()}"
    assert find_home(demo=True).store == f"sqlite:///{(home / 'demo.sqlite').as_posix()}"
    assert home.is_dir()


def test_without_it_the_platforms_folder_is_taken(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv(HOME, raising=False)
    for name in ("XDG_DATA_HOME", "HOME", "LOCALAPPDATA", "USERPROFILE"):
        monkeypatch.setenv(name, str(tmp_path))
    assert find_home().folder.is_relative_to(tmp_path)
    assert find_home().folder.name == "parbuckle"


def test_one_address_in_the_settings_names_another_store(home: Path) -> None:
    find_home()
    (home / "settings.toml").write_text('store = "postgresql://crew@localhost/cases"\n', "utf-8")
    assert find_home().store == "postgresql://crew@localhost/cases"
    assert find_home(demo=True).store.endswith("demo.sqlite")


@pytest.mark.parametrize(
    ("text", "said"),
    [("store = 1", "'store' is not a setting"), ('stoer = "x"', "'stoer' is not"), ("store =", "this is not TOML")],
)
def test_a_wrong_setting_is_named(home: Path, text: str, said: str) -> None:
    find_home()
    (home / "settings.toml").write_text(text, "utf-8")
    with pytest.raises(CallError, match=said) as found:
        find_home()
    assert "settings.toml" in str(found.value)


def test_a_folder_that_cannot_be_made_is_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "file").write_text("", "utf-8")
    monkeypatch.setenv(HOME, str(tmp_path / "file" / "home"))
    with pytest.raises(CallError, match="cannot be made"):
        find_home()
