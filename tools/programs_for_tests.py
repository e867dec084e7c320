"""Install the programs that the tests start, on Debian as root; elsewhere say what is missing and how to get it.

The tests of paper read PDF files with poppler's programs; the store is tried on a PostgreSQL server of its own; the
page is used in a browser.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path


def has_server() -> bool:
    """Tell whether a PostgreSQL server can be started here."""
    debian = any(Path("/usr/lib/postgresql").glob("*/bin/initdb"))
    return bool(debian or os.environ.get("PG_BIN") or shutil.which("initdb"))


def browser() -> str | None:
    """Give the path of a browser that the tests can drive."""
    names = ("chromium", "chromium-browser", "google-chrome", "microsoft-edge")
    return os.environ.get("BROWSER_FOR_TESTS") or next(filter(None, map(shutil.which, names)), None)


def missing() -> list[str]:
    """Give the Debian packages whose programs are not there."""
    there = {"poppler-utils": shutil.which("pdftotext"), "postgresql": has_server(), "chromium": browser()}
    return [name for name, found in there.items() if not found]


def main() -> int:
    """Install what is missing; 1 where it is needed and cannot be had."""
    wanted = missing()
    if not wanted:
        return 0
    if not shutil.which("apt-get") or os.geteuid() != 0:
        print(f"The tests need {' and '.join(wanted)}: install them with your system's own tool.", file=sys.stderr)
        return 1 if os.environ.get("CI") else 0
    quiet = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    print(f"Installing {' and '.join(wanted)}.", file=sys.stderr)
    for command in (["update", "-qq"], ["install", "-y", "-qq", "--no-install-recommends", *wanted]):
        if subprocess.run(["apt-get", *command], env=quiet, stdout=subprocess.DEVNULL, check=False).returncode:
            print("They could not be installed.", file=sys.stderr)
            return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
