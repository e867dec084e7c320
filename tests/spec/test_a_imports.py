"""Guards on imports: one way, each room its own few packages, of an earlier stage the result only."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

from guard import code
from guard.tree import PACKAGE, ROOT, modules, name, room

STAGES = ("search", "load", "lift", "dive")
PYTHON = frozenset(sys.stdlib_module_names)
PACKAGES = {
    "quantity": {"numpy"},
    "physics": {"numpy", "gsw"},
    "search": {"numpy", "pyproj", "shapely", "pygeomag"},
    "load": {"numpy"},
    "lift": {"numpy"},
    "dive": {"numpy"},
    "duties": {"numpy"},
    "case": {"pydantic", "pydantic_core", "defusedxml", "tomli_w"},
    "plan": {"numpy"},
    "record": {"numpy", "defusedxml"},
    "brief": {"typst", "font_source_sans_pro"},
    "store": {"sqlalchemy", "alembic"},
    "desk": {"numpy", "platformdirs"},
    "api": {"fastapi", "starlette", "uvicorn", "pydantic"},
    "cli": {"rich"},
    "data": set[str](),
    "": set[str](),
}


def lint(folder: Path) -> subprocess.CompletedProcess[str]:
    """Hold the import contracts of pyproject.toml against the package in a folder."""
    command = [
        sys.executable,
        "-c",
        "from importlinter.cli import lint_imports; raise SystemExit(lint_imports(no_cache=True))",
    ]
    env = {**os.environ, "PYTHONPATH": str(folder / "src"), "COLUMNS": "200"}
    return subprocess.run(command, cwd=folder, env=env, capture_output=True, encoding="utf-8", check=False)


def contracts(output: str, state: str) -> int:
    return sum(line.rstrip().endswith(" " + state) for line in output.splitlines())


def test_contracts_are_kept() -> None:
    done = lint(ROOT)
    assert done.returncode == 0, done.stdout + done.stderr
    assert contracts(done.stdout, "KEPT") == 8


def test_planted_imports_break_every_contract(tmp_path: Path) -> None:
    shutil.copytree(PACKAGE, tmp_path / "src" / "parbuckle", ignore=shutil.ignore_patterns("__pycache__", "data"))
    shutil.copy(ROOT / "pyproject.toml", tmp_path)
    planted = {
        "physics/planted.py": "import parbuckle.lift\nimport pydantic\n",
        "case/planted.py": "import parbuckle.plan\n",
        "load/planted.py": "import parbuckle.case\n",
        "brief/planted.py": "import numpy\n",
        "cli/planted.py": "import parbuckle.lift\n",
        "store/planted.py": "import parbuckle.case\n",
        "api/planted.py": "import parbuckle.plan\n",
    }
    for file, source in planted.items():
        (tmp_path / "src" / "parbuckle" / file).write_text(source, "utf-8")
    done = lint(tmp_path)
    assert done.returncode != 0
    assert contracts(done.stdout, "BROKEN") >= 8, done.stdout


def test_every_room_uses_its_own_packages() -> None:
    found = {}
    for path in modules():
        allowed = frozenset(PACKAGES[room(path)]) | {"parbuckle"}
        if strangers := code.strangers(path.read_text("utf-8"), allowed, PYTHON):
            found[name(path)] = strangers
    assert not found


def test_a_stranger_is_seen() -> None:
    inside = "def f():\n    from scipy.optimize import brentq\n    import numba as nb"
    assert len(code.strangers(inside, frozenset({"numpy"}), PYTHON)) == 2
    assert not code.strangers("import math\nimport numpy as np", frozenset({"numpy"}), PYTHON)


def test_a_stage_sees_an_earlier_result_only() -> None:
    found = {}
    for path in modules():
        if room(path) in STAGES:
            earlier = frozenset(STAGES[: STAGES.index(room(path))])
            others = frozenset(STAGES) - {room(path)}
            if wrong := code.wrong_neighbours(path.read_text("utf-8"), earlier, others):
                found[name(path)] = wrong
    assert not found


def test_a_wrong_neighbour_is_seen() -> None:
    earlier, others = frozenset({"load"}), frozenset({"load", "dive"})
    assert not code.wrong_neighbours("from parbuckle.load.result import LoadResult", earlier, others)
    assert not code.wrong_neighbours("from parbuckle.load import result", earlier, others)
    assert code.wrong_neighbours("from parbuckle.load.weigh import weigh", earlier, others)
    assert code.wrong_neighbours("from parbuckle.load import weigh", earlier, others)
    assert code.wrong_neighbours("import parbuckle.dive.result", earlier, others)
    assert code.wrong_neighbours("from parbuckle import load", earlier, others)
