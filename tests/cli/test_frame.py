"""The command's frame: what it loads, how it ends, where it writes."""

from __future__ import annotations

import argparse
import io
import json
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

import parbuckle as package
from parbuckle.cli import main as frame
from parbuckle.cli import plan
from parbuckle.cli.output import print_json
from parbuckle.quantity.errors import CallError, CaseError

Call = Callable[..., "subprocess.CompletedProcess[str]"]
HEAVY = ("numpy", "scipy", "pydantic", "typst", "rich", "gsw", "pint")


@pytest.mark.parametrize("words", [["--help"], ["plan", "--help"], ["--version"]])
def test_help_loads_nothing_heavy(words: list[str], root: Path) -> None:
    source = (
        "import sys\nfrom parbuckle.cli.main import main\n"
        f"try:\n    main({words!r})\nexcept SystemExit as end:\n    assert end.code == 0\n"
        f"loaded = [name for name in {HEAVY!r} if name in sys.modules]\nassert not loaded, loaded\n"
    )
    env = {**os.environ, "PYTHONPATH": str(root / "src")}
    done = subprocess.run([sys.executable, "-c", source], env=env, capture_output=True, encoding="utf-8", check=False)
    assert done.returncode == 0, done.stderr
    assert "parbuckle" in done.stdout


def test_version(parbuckle: Call) -> None:
    assert parbuckle("--version").stdout == f"parbuckle {package.__version__}\n"


@pytest.mark.parametrize(
    ("words", "hint"),
    [
        ([], "required"),
        (["plam"], "did you mean plan?"),
        (["plan", "x.toml", "--jsno"], "did you mean --json?"),
        (["plan"], "CASE.toml"),
        (["plan", "x.toml", "--draws", "0"], "1 to 1,000,000"),
        (["plan", "x.toml", "--draws", "1000001"], "1 to 1,000,000"),
        (["plan", "x.toml", "--draws", "1e3"], "1 to 1,000,000"),
        (["plan", "x.toml", "--seed", "a"], "--seed"),
        (["table", "k.toml"], "--out"),
    ],
)
def test_a_wrong_call_ends_with_1(words: list[str], hint: str, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as end:
        frame.main(words)
    said = capsys.readouterr()
    assert (end.value.code, said.out) == (1, "")
    assert hint in said.err
    assert "(did you mean --out" not in said.err


def test_draws_at_both_ends() -> None:
    assert (plan.draws("1"), plan.draws("1000000")) == (1, 1_000_000)
    for text in ("0", "1000001", "-1", "1_000", "١", "", "9" * 5000):
        with pytest.raises(argparse.ArgumentTypeError):
            plan.draws(text)


def fail_with(error: BaseException, monkeypatch: pytest.MonkeyPatch) -> None:
    def run(args: argparse.Namespace) -> int:
        raise error

    monkeypatch.setattr(plan, "run", run)


@pytest.mark.parametrize(
    ("error", "words"),
    [
        (CallError("These two do not fit."), "These two do not fit."),
        (CaseError("no such key", file="a.toml", key="site.dept", line=3), "a.toml, line 3: site.dept: no such key"),
        (FileNotFoundError(2, "No such file or directory", "a.toml"), "a.toml: No such file or directory"),
        (KeyboardInterrupt(), "Stopped."),
        (ZeroDivisionError("division by zero"), "A fault in the program, not in your file: ZeroDivisionError"),
        (RecursionError("too deep"), "A fault in the program"),
    ],
)
def test_errors_become_words(
    error: BaseException, words: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    fail_with(error, monkeypatch)
    assert frame.main(["plan", "a.toml"]) == 1
    said = capsys.readouterr()
    assert said.out == ""
    assert words in said.err
    assert "Traceback" not in said.err


def test_a_fault_names_its_place(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    fail_with(ValueError("odd"), monkeypatch)
    frame.main(["plan", "a.toml"])
    assert "test_frame.py, line" in capsys.readouterr().err


def test_a_broken_pipe_is_quiet(root: Path) -> None:
    source = (
        "import sys\nfrom parbuckle.cli import main, plan\n"
        "plan.run = lambda args: print('x' * 1_000_000) or 0\nsys.exit(main.main(['plan', 'a.toml']))\n"
    )
    env = {**os.environ, "PYTHONPATH": str(root / "src")}
    child = subprocess.Popen(
        [sys.executable, "-c", source], env=env, stdout=subprocess.PIPE, stderr=subprocess.PIPE, encoding="utf-8"
    )
    assert child.stdout and child.stderr
    child.stdout.read(1)
    child.stdout.close()
    assert child.stderr.read() == ""
    child.stderr.close()
    assert child.wait() == 1


@pytest.mark.parametrize(
    "locale", [{"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"}, {"PYTHONIOENCODING": "ascii"}]
)
def test_output_is_utf8_in_any_locale(parbuckle: Call, locale: dict[str, str]) -> None:
    done = parbuckle("new", "Übung ±.toml", **{**locale, "PYTHONUTF8": "0"})
    assert "Written: " in done.stderr
    assert done.returncode == 0


def test_json_is_one_document_without_nan(capsys: pytest.CaptureFixture[str]) -> None:
    print_json({"word": "±", "n": [1, 2.5, None]})
    said = capsys.readouterr().out
    assert said.count("\n") == 1
    assert json.loads(said)["n"] == [1, 2.5, None]
    for number in (float("nan"), float("inf")):
        with pytest.raises(ValueError, match="Out of range float"):
            print_json({"n": number})
    assert capsys.readouterr().out == ""


@pytest.mark.parametrize(
    ("findings", "code"),
    [
        ([], 0),
        ([{"level": "caution"}, {"level": "note"}], 0),
        ([{"level": "stop", "lifted": None}], 2),
        ([{"level": "unanswered"}], 2),
        ([{"level": "stop", "lifted": {"by": "Ada", "reason": "seen", "at": "now"}}], 0),
    ],
)
def test_exit_code_follows_the_findings(findings: list[dict[str, object]], code: int) -> None:
    assert plan.exit_code({"findings": findings}) == code


def test_a_missing_case_is_said_in_words(parbuckle: Call) -> None:
    done = parbuckle("plan", "nowhere.toml", "--json")
    assert (done.returncode, done.stdout) == (1, "")
    assert "nowhere.toml" in done.stderr
    assert "Traceback" not in done.stderr
    assert "A fault in the program" not in done.stderr


def test_utf8_is_set_on_real_streams(monkeypatch: pytest.MonkeyPatch) -> None:
    from parbuckle.cli.output import speak_utf8

    written = io.BytesIO()
    stream = io.TextIOWrapper(written, encoding="ascii")
    monkeypatch.setattr(sys, "stdout", stream)
    speak_utf8()
    print_json({"mass": "46 ± 4 kg", "file": "\udcff.toml"})
    stream.flush()
    assert written.getvalue() == b'{"mass": "46 \xc2\xb1 4 kg", "file": "\\udcff.toml"}\n'
