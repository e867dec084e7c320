"""``dev.py`` stays small, needs nothing but Python, and can be read by an old one, which then gets a sentence."""

from __future__ import annotations

import ast
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from guard import code
from guard.tree import ROOT

SCRIPT = ROOT / "dev.py"
NEW_WORDS = (ast.JoinedStr, ast.NamedExpr, ast.AnnAssign, ast.Match, ast.AsyncFunctionDef, ast.Nonlocal, ast.YieldFrom)


def too_new(source: str) -> list[str]:
    """Find syntax that an old Python cannot read."""
    found = [type(n).__name__ for n in ast.walk(ast.parse(source)) if isinstance(n, NEW_WORDS)]
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.FunctionDef):
            arguments = (*node.args.args, *node.args.kwonlyargs)
            new = node.returns or node.args.kwonlyargs or node.args.posonlyargs or any(a.annotation for a in arguments)
            found += [node.name] if new else []
        if isinstance(node, (ast.List, ast.Tuple, ast.Set)) and any(isinstance(e, ast.Starred) for e in node.elts):
            found.append("starred")
    return found


def test_an_old_python_can_read_it() -> None:
    source = SCRIPT.read_bytes()
    assert source.isascii()
    assert not too_new(source.decode())


@pytest.mark.parametrize(
    "new", ["f'{x}'", "(y := 1)", "def f(a: int): pass", "def f(*, a): pass", "[*a]", "x: int = 1"]
)
def test_new_syntax_is_seen(new: str) -> None:
    assert too_new(new)


def test_it_is_small_and_needs_nothing() -> None:
    source = SCRIPT.read_text("utf-8")
    assert source.count("\n") <= 200
    assert not code.strangers(source, frozenset(), frozenset(sys.stdlib_module_names))


def test_it_talks_on_standard_error_and_says_how_it_is_called() -> None:
    for words, wanted in ((["--help"], 0), ([], 1), (["tset"], 1)):
        done = subprocess.run([sys.executable, SCRIPT, *words], capture_output=True, encoding="utf-8", check=False)
        assert (done.returncode, done.stdout) == (wanted, "")
        assert "python3 dev.py test" in done.stderr


def test_a_too_old_python_gets_a_sentence(tmp_path: Path) -> None:
    shutil.copy(SCRIPT, tmp_path)
    pretend = (
        "import sys; sys.version_info = (3, 6, 15, 'final', 0); sys.argv = ['dev.py', 'run']; import dev; dev.main()"
    )
    env = {**os.environ, "PATH": str(tmp_path)}
    command = [sys.executable, "-c", pretend]
    done = subprocess.run(command, cwd=tmp_path, env=env, capture_output=True, encoding="utf-8", check=False)
    assert done.returncode == 1
    assert (
        done.stderr == "dev.py: Python 3.11 or newer is needed. This is Python 3.6, and no newer one is on the path.\n"
    )
    assert not (tmp_path / ".venv").exists()
