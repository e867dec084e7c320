"""Where the app keeps what is written: a folder of its own, and the address of its store."""

from __future__ import annotations

import os
import tomllib
from dataclasses import dataclass
from pathlib import Path

from parbuckle.quantity.errors import CallError

HOME = "PARBUCKLE_HOME"
"""Name of the setting for the folder."""

SETTINGS = "settings.toml"
"""File in the folder; it may hold ``store = "postgresql://USER@HOST/NAME"``."""

_KEYS = ("store",)


@dataclass(frozen=True, slots=True)
class Home:
    """Where everything is.

    Parameters
    ----------
    folder : Path
        Its own folder.
    store : str
        Address of the store.
    """

    folder: Path
    store: str


def find_home(demo: bool = False) -> Home:
    """Find the folder and the store of the app.

    Parameters
    ----------
    demo : bool
        Whether it is the demonstration, which has a file of its own and never touches the cases of the user.

    Returns
    -------
    Home
        The folder of ``PARBUCKLE_HOME`` if that is set, otherwise the one that the platform has for it. It is made
        where it is missing.

    Raises
    ------
    CallError
        If the folder cannot be made or the settings cannot be read.
    """
    folder = Path(os.environ.get(HOME) or _platform_folder()).expanduser().absolute()
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise CallError(f"the folder {folder} cannot be made: {error.strerror}. Set {HOME} to another one.") from error
    if demo:
        return Home(folder, _file(folder / "demo.sqlite"))
    return Home(folder, _settings(folder / SETTINGS).get("store") or _file(folder / "cases.sqlite"))


def _platform_folder() -> str:
    from platformdirs import user_data_dir

    return user_data_dir("parbuckle", appauthor=False)


def _file(file: Path) -> str:
    return f"sqlite:///{file.as_posix()}"


def _settings(file: Path) -> dict[str, str]:
    if not file.is_file():
        return {}
    try:
        told = tomllib.loads(file.read_text("utf-8"))
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as error:
        raise CallError(f"{file}: this is not TOML: {error}") from error
    for key, value in told.items():
        if key not in _KEYS or not isinstance(value, str):
            raise CallError(f"{file}: '{key}' is not a setting with a text. Allowed: {', '.join(_KEYS)}.")
    return told
