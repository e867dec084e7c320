"""The files that the rules are held against."""

from __future__ import annotations

import subprocess
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "src" / "parbuckle"


@cache
def tracked() -> tuple[Path, ...]:
    """List the files that are, or would be, in the repository; without git (an unpacked archive) all that lie there."""
    if not (ROOT / ".git").exists():
        return tuple(sorted(p for p in ROOT.rglob("*") if p.is_file() and not _is_made(p.relative_to(ROOT))))
    command = ["git", "ls-files", "--cached", "--others", "--exclude-standard", "-z"]
    names = subprocess.run(command, cwd=ROOT, capture_output=True, check=True).stdout.decode().split("\0")
    return tuple(sorted(ROOT / name for name in set(names) if name and (ROOT / name).is_file()))


def _is_made(path: Path) -> bool:
    return any(part.startswith(".") or part in ("__pycache__", "dist", "build") for part in path.parts)


@cache
def modules() -> tuple[Path, ...]:
    """List the modules of the package."""
    return tuple(sorted(PACKAGE.rglob("*.py")))


def room(path: Path) -> str:
    """Name the room that a module lies in; empty for the package's own files."""
    parts = path.relative_to(PACKAGE).parts
    return parts[0] if parts[1:] else ""


def name(path: Path) -> str:
    """Name a file as messages show it."""
    return path.relative_to(ROOT).as_posix()
