"""What a whole plan loads: none of the tests' judges, no compiler, no unit library."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

NEVER = ("scipy", "CoolProp", "numba", "pint", "matplotlib", "fluids", "trimesh")

SCRIPT = """
import sys
from parbuckle.cli.main import main
code = main(["plan", sys.argv[1], "--brief", "brief.pdf"]) or main(["table", sys.argv[2], "--out", "table.pdf"])
loaded = [name for name in {never!r} if name in sys.modules]
sys.exit(f"loaded: {{loaded}}" if loaded else code)
"""


def loaded_by(script: str, root: Path, folder: Path) -> subprocess.CompletedProcess[str]:
    cases = root / "src" / "parbuckle" / "data" / "cases"
    command = [sys.executable, "-c", script, str(cases / "quarry-outboard.toml"), str(cases / "kit.toml")]
    env = {**os.environ, "PYTHONPATH": str(root / "src")}
    return subprocess.run(command, cwd=folder, env=env, capture_output=True, encoding="utf-8", check=False)


def test_a_plan_and_its_papers_load_no_judge(root: Path, tmp_path: Path) -> None:
    done = loaded_by(SCRIPT.format(never=NEVER), root, tmp_path)
    assert done.returncode == 0, done.stderr
    assert (tmp_path / "brief.pdf").is_file()
    assert (tmp_path / "table.pdf").is_file()


def test_a_judge_would_be_seen(root: Path, tmp_path: Path) -> None:
    done = loaded_by("import scipy" + SCRIPT.format(never=NEVER), root, tmp_path)
    assert done.returncode == 1
    assert "loaded: ['scipy']" in done.stderr
