"""Stores for the tests: in memory, in a SQLite file, and on a PostgreSQL server that is started for the test run."""

from __future__ import annotations

import os
import shutil
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import mkdtemp
from typing import Any

import pytest


def server_folder() -> Path | None:
    """Find the newest PostgreSQL server: PG_BIN, else where Debian puts it, else on the path."""
    told = os.environ.get("PG_BIN")
    debian = sorted(Path("/usr/lib/postgresql").glob("*/bin"), key=lambda folder: int(folder.parent.name))
    found = shutil.which("initdb")
    folders = [Path(told)] if told else [*reversed(debian), *([Path(found).parent] if found else [])]
    return next((folder for folder in folders if (folder / "initdb").is_file()), None)


def _as_user(folder: Path) -> dict[str, Any]:
    """The server refuses to run as root: give it the user that its package made."""
    if os.geteuid() != 0:
        return {}
    import pwd

    user = pwd.getpwnam("postgres")
    os.chown(folder, user.pw_uid, user.pw_gid)
    return {"user": user.pw_uid, "group": user.pw_gid, "extra_groups": []}


@contextmanager
def postgres() -> Iterator[str]:
    """Start a server in a folder of its own, on a Unix socket only; give the address of an empty database."""
    programs = server_folder()
    if programs is None:
        if os.environ.get("CI"):
            pytest.fail("no PostgreSQL server here: `python3 dev.py test` installs it on Debian as root")
        pytest.skip("no PostgreSQL server on this machine")
    folder = Path(mkdtemp(prefix="pg"))  # a socket's path must be short
    told: dict[str, Any] = {"check": True, "cwd": "/", "stdout": subprocess.DEVNULL, **_as_user(folder)}
    data = folder / "data"
    first = ["-U", "test", "--auth=trust", "--no-sync", "-E", "UTF8", "--locale=C.UTF-8"]
    options = f"-c listen_addresses='' -k {folder} -c fsync=off -c full_page_writes=off"
    control = [programs / "pg_ctl", "-D", data, "-w"]
    try:
        subprocess.run([programs / "initdb", "-D", data, *first], **told)
        subprocess.run([*control, "-l", folder / "log", "-o", options, "start"], **told)
        yield f"postgresql://test@/postgres?host={folder}"
    finally:
        subprocess.run([*control, "-m", "immediate", "stop"], **told | {"check": False})
        shutil.rmtree(folder, ignore_errors=True)
