"""Two forms, one answer: the compiled loop and the NumPy columns give equal bits in any order, on any threads."""

from __future__ import annotations

import dataclasses
import importlib
import os
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from headline import headline
from parbuckle.physics import compiled, kernel, machine_code, simulate
from parbuckle.physics.layout import EVENT
from parbuckle.physics.simulate import simulate as run
from parbuckle.physics.simulate import way_of
from parbuckle.physics.tended import Line, Tended, TendedRise
from parbuckle.quantity.errors import RangeError
from sample_tended import draw_lifts, grouped, tended_of

FIELDS = [field.name for field in dataclasses.fields(TendedRise)]


def same(one: TendedRise, other: TendedRise) -> bool:
    return all(np.array_equal(getattr(one, name), getattr(other, name)) for name in FIELDS)


def lifts() -> list[Tended]:
    drawn = draw_lifts(300, 31)
    return [tended_of([drawn[i] for i in group], limit=120.0) for group in grouped(drawn) if len(group) > 8]


def test_both_forms_give_equal_bits() -> None:
    assert sum(lift.size for lift in lifts()) > 200
    assert all(same(run(lift, form="kernel"), run(lift, form="lockstep")) for lift in lifts())


def test_both_forms_give_equal_bits_on_a_line_and_through_a_relief_valve() -> None:
    drawn = [lift for lift in draw_lifts(200, 32) if len(lift.divers) == 1 and lift.divers[0].policy == "pulls"]
    group = [dataclasses.replace(lift, relief=(10e3, 10e3), relief_area=(2e-5, 4e-5)) for lift in drawn]
    group = [dataclasses.replace(x, divers=(dataclasses.replace(x.divers[0], unanswered=2),)) for x in group]
    lift = tended_of(group, limit=300.0)
    n = lift.size
    assert n > 20
    line = Line(np.full(n, 2e4), lift.depth - 0.5, np.linspace(-0.2, 0.1, n))
    for case in (lift, dataclasses.replace(lift, line=line)):
        assert same(run(case, form="kernel"), run(case, form="lockstep"))


def test_threads_order_and_blocks_change_no_bit(monkeypatch: pytest.MonkeyPatch) -> None:
    lift = headline(700)
    mine = run(lift, threads=1, form="kernel")
    assert same(mine, run(lift, threads=2, form="kernel"))
    turned = run(lift.take(np.arange(699, -1, -1)), form="kernel")
    assert all(np.array_equal(getattr(turned, name)[..., ::-1], getattr(mine, name)) for name in FIELDS)
    monkeypatch.setattr(simulate, "_BLOCK", 33)
    assert same(mine, run(lift, threads=2, form="kernel"))
    for form in ("kernel", "lockstep"):
        few = run(lift.take(np.array([5, 600, 17])), form=form)
        assert all(np.array_equal(getattr(few, n), getattr(mine, n)[..., [5, 600, 17]]) for n in FIELDS)


def test_the_way_of_a_member_ends_where_the_ensemble_says() -> None:
    lift = headline(20)
    mine = run(lift)
    for member in (0, 7, 19):
        way = way_of(lift, member)
        assert way.time[-1] == mine.time[member]
        assert way.depth[-1] == mine.end_depth[member]
        assert way.time.size == mine.steps[member] + 1
        assert np.all(np.diff(way.time) >= 0.0)
        assert way.event[-1] in (EVENT.surface, EVENT.bottom)


def test_it_works_without_a_compiler(monkeypatch: pytest.MonkeyPatch) -> None:
    lift = headline(200)
    mine, way = run(lift, form="kernel"), way_of(lift, 3)
    monkeypatch.setattr(compiled, "_made", {})
    monkeypatch.setattr(compiled, "_working", {})
    monkeypatch.setattr(compiled, "_compiler", lambda: None)
    monkeypatch.setattr(machine_code, "versions", lambda: None)
    assert not compiled.can_compile()
    assert same(mine, run(lift)) and same(mine, run(lift, form="kernel"))
    bare = way_of(lift, 3)
    assert np.array_equal(bare.time, way.time) and np.array_equal(bare.volumes, way.volumes)
    assert compiled.compiler_state() == "none"


def test_the_compiler_starts_beside_and_columns_answer_meanwhile(monkeypatch: pytest.MonkeyPatch) -> None:
    lift = headline(200)
    mine, begun = run(lift, form="kernel"), []
    monkeypatch.setattr(compiled, "_made", {})
    monkeypatch.setattr(compiled, "_working", {})
    monkeypatch.setattr(compiled, "_kept", lambda *told: None)

    class Slow:
        def __init__(self, target: object, **more: object) -> None:
            begun.append(target)

        def start(self) -> None: ...

        def is_alive(self) -> bool:
            return True

    monkeypatch.setattr(compiled, "Thread", Slow)
    assert same(mine, run(lift)) and not begun  # few members: not worth it
    assert not simulate.warm_up() and len(begun) == 1
    monkeypatch.setattr(simulate, "WORTH_COMPILING", 150)
    assert same(mine, run(lift))
    assert len(begun) == 1 and compiled.compiler_state() == "working"


SMALL = """
from parbuckle.physics import compiled

def double(x):
    return 2.0 * x

def entry(digest):
    def run(x, n, out):
        for i in range(n if digest > 0 else 0):
            out[i] = double(x) + i
    return run
"""
ASK = """
import sys
sys.path.insert(0, sys.argv[1])
import numpy as np
import small
told = (small.entry, "void(float64, int64, float64[::1])", (small.double,))
found = small.compiled.compiled_soon(*told, begin=False) is not None
made = small.compiled.compiled(*told, alone=True)
out = np.zeros(3)
made(21.0, 3, out)
print(*out, small.compiled.compiler_state(), found, "numba" in sys.modules)
assert small.compiled.compiled_soon(*told) is made
try:
    made(21.0, 3, out[::2])
except TypeError:
    print("refused")
"""


def asked(folder: Path) -> list[str]:
    """Ask a fresh process for a small function; what is kept goes beside it, or into a home of its own."""
    (folder / "small.py").write_text(SMALL)
    package = Path(importlib.import_module("parbuckle").__file__ or "").parents[1]
    home = str(folder / "home")
    environment = {**os.environ, "PYTHONPATH": str(package), "HOME": home, "USERPROFILE": home}
    told = [sys.executable, "-c", ASK, str(folder)]
    done = subprocess.run(told, env=environment, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    return done.stdout.split()


def kept_in(folder: Path) -> list[Path]:
    return list(folder.rglob("*.kept"))


VALUES = ["42.0", "43.0", "44.0", "ready"]


def test_what_is_kept_is_called_without_the_compiler_and_a_broken_file_is_made_anew(tmp_path: Path) -> None:
    pytest.importorskip("numba")
    assert asked(tmp_path) == [*VALUES, "False", "True", "refused"]
    (file,) = kept_in(tmp_path)
    whole = file.read_bytes()
    assert asked(tmp_path) == [*VALUES, "True", "False", "refused"]
    for broken in (b"", whole[:-7]):
        file.write_bytes(broken)
        assert asked(tmp_path) == [*VALUES, "False", "True", "refused"]
        assert kept_in(tmp_path) == [file] and file.read_bytes() != broken


@pytest.mark.parametrize("home", [True, False])
def test_a_folder_that_cannot_be_written_does_no_harm(tmp_path: Path, home: bool) -> None:
    pytest.importorskip("numba")
    for name in ("__pycache__", *(() if home else ("home",))):
        (tmp_path / name).write_text("a file stands where the folder should be")
    assert asked(tmp_path) == [*VALUES, "False", "True", "refused"]
    assert asked(tmp_path) == [*VALUES, *(("True", "False") if home else ("False", "True")), "refused"]
    assert len(kept_in(tmp_path)) == int(home)


def test_what_is_kept_belongs_to_the_sources_and_constants(monkeypatch: pytest.MonkeyPatch) -> None:
    parts = (kernel.follow, *simulate._PARTS)
    mine = compiled._digest(parts)
    assert mine == compiled._digest(parts)
    monkeypatch.setattr(kernel, "SPAN", 0.25)
    assert compiled._digest(parts) != mine


def test_a_wrong_form_or_number_of_threads_is_refused() -> None:
    with pytest.raises(RangeError, match="form"):
        run(headline(2), form="magic")
    with pytest.raises(RangeError, match="threads"):
        run(headline(2), threads=0)
