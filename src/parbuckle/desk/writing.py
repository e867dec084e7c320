"""Write a file whole or not at all: beside its place first, then moved on to it."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from parbuckle.quantity.errors import CallError


def write_whole(out: Path, content: bytes) -> None:
    """Write bytes to a file, so that no reader ever meets half of it.

    Parameters
    ----------
    out : Path
        The file; an older one is replaced.
    content : bytes
        What shall stand in it.

    Raises
    ------
    CallError
        The folder is missing, the place is a folder, or the file cannot be written there.
    """
    folder = out.parent
    if not folder.is_dir():
        raise CallError(f"{out}: the folder {folder} does not exist; make it first, or choose another place")
    if out.is_dir():
        raise CallError(f"{out} is a folder; give the name of a file")
    try:
        _replace(out, folder, content)
    except OSError as error:
        raise CallError(f"{out}: the file cannot be written ({error.strerror}); choose another place") from error


def _replace(out: Path, folder: Path, content: bytes) -> None:
    handle, name = tempfile.mkstemp(dir=folder, prefix=f".{out.name}.", suffix=".part")
    part = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
        part.chmod(0o666 & ~_mask())
        part.replace(out)
    except OSError:
        part.unlink(missing_ok=True)
        raise


def _mask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask
