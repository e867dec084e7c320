"""The wheel works alone: built from the tree, installed without a network, called from another folder."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import sysconfig
import venv
import zipfile
from pathlib import Path

import pytest

pytestmark = pytest.mark.slow


def must(*command: str | Path, cwd: Path, codes: tuple[int, ...] = (0,)) -> subprocess.CompletedProcess[str]:
    env = {k: v for k, v in os.environ.items() if not k.startswith("PYTHON")}
    done = subprocess.run([*map(str, command)], cwd=cwd, env=env, capture_output=True, encoding="utf-8", check=False)
    assert done.returncode in codes, done.stdout + done.stderr
    return done


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory, root: Path) -> Path:
    out = tmp_path_factory.mktemp("wheel")
    pip = (sys.executable, "-m", "pip", "wheel", "-q", "--no-deps", "--no-index", "--no-build-isolation", "-w", out)
    must(*pip, root, cwd=out)
    (built,) = out.glob("*.whl")
    return built


@pytest.fixture(scope="module")
def installed(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Give the folder of programs of an environment that holds the wheel; the libraries are this environment's."""
    home = tmp_path_factory.mktemp("env")
    venv.create(home, with_pip=False)
    python = home / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
    pip = (sys.executable, "-m", "pip", "-q", "--python", python, "install", "--no-deps", "--no-index")
    must(*pip, wheel, cwd=home)
    where = must(python, "-c", "import sysconfig; print(sysconfig.get_path('purelib'))", cwd=home).stdout.strip()
    (Path(where) / "libraries.pth").write_text(sysconfig.get_path("purelib") + "\n", "utf-8")
    return python.parent


def test_the_wheel_holds_every_file_of_the_package(wheel: Path, root: Path) -> None:
    source = root / "src"
    files = [p for p in (source / "parbuckle").rglob("*") if p.is_file() and "__pycache__" not in p.parts]
    wanted = {p.relative_to(source).as_posix() for p in files}
    held = set(zipfile.ZipFile(wheel).namelist())
    assert wanted <= held
    assert not [name for name in held if name.startswith(("tests", "tools"))]


def test_the_installed_command_works_from_another_folder(installed: Path, tmp_path: Path) -> None:
    command = installed / "parbuckle"
    place = must(installed / "python", "-P", "-c", "import parbuckle; print(parbuckle.__file__)", cwd=tmp_path).stdout
    assert place.startswith(str(installed.parent))
    assert "plan" in must(command, "--help", cwd=tmp_path).stdout
    must(command, "new", "mine.toml", "--from", "quarry-outboard", cwd=tmp_path)
    done = must(command, "plan", "mine.toml", "--json", "--draws", "64", "--brief", "b.pdf", cwd=tmp_path, codes=(0, 2))
    assert json.loads(done.stdout)["schema"] == 1
    assert (tmp_path / "b.pdf").read_bytes().startswith(b"%PDF")
