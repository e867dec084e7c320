"""What a whole plan loads: none of the tests' judges, no unit library; the compiler only where people tend a lift."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

NEVER = ("scipy.integrate", "scipy.optimize", "scipy.stats", "CoolProp", "pint", "matplotlib", "fluids", "trimesh")
"""Numba itself looks for SciPy's version where it is installed; none of its parts may follow."""

SELDOM = (*NEVER, "numba", "pyproj", "shapely", "pygeomag")
"""What a case without a tended lift and without a search does not need either."""

SCRIPT = """
import sys
from parbuckle.cli.main import main
code = main(["plan", sys.argv[1], "--brief", "brief.pdf"]) or main(["table", sys.argv[2], "--out", "table.pdf"])
loaded = [name for name in {never!r} if name in sys.modules]
sys.exit(f"loaded: {{loaded}}" if loaded else code)
"""


def loaded_by(script: str, root: Path, folder: Path, case: str = "quarry-outboard") -> subprocess.CompletedProcess[str]:
    cases = root / "src" / "parbuckle" / "data" / "cases"
    command = [sys.executable, "-c", script, str(cases / f"{case}.toml"), str(cases / "kit.toml")]
    env = {**os.environ, "PYTHONPATH": str(root / "src")}
    return subprocess.run(command, cwd=folder, env=env, capture_output=True, encoding="utf-8", check=False)


def test_a_plan_and_its_papers_load_no_judge(root: Path, tmp_path: Path) -> None:
    done = loaded_by(SCRIPT.format(never=NEVER), root, tmp_path)
    assert done.returncode == 0, done.stderr
    assert (tmp_path / "brief.pdf").is_file()
    assert (tmp_path / "table.pdf").is_file()


def test_a_first_answer_loads_no_compiler_and_no_map(root: Path, tmp_path: Path) -> None:
    script = SCRIPT.format(never=SELDOM).replace("sys.exit(f", "code = 0 if code == 2 else code\nsys.exit(f")
    done = loaded_by(script, root, tmp_path, "first-answer")
    assert done.returncode == 0, done.stderr


def test_help_loads_nothing_heavy(root: Path, tmp_path: Path) -> None:
    heavy = (*SELDOM, "numpy", "pydantic", "typst")
    script = f"""
import sys
from parbuckle.cli.main import main
try:
    main(["--help"])
except SystemExit:
    pass
sys.exit(str([name for name in {heavy!r} if name in sys.modules]) if any(n in sys.modules for n in {heavy!r}) else 0)
"""
    done = loaded_by(script, root, tmp_path)
    assert done.returncode == 0, done.stderr


def test_a_judge_would_be_seen(root: Path, tmp_path: Path) -> None:
    done = loaded_by("import scipy.integrate" + SCRIPT.format(never=NEVER), root, tmp_path)
    assert done.returncode == 1
    assert "loaded: ['scipy.integrate'" in done.stderr
