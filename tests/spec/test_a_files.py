"""Guards on files: sizes, names, and what may not stand in any of them."""

from __future__ import annotations

from pathlib import Path

import pytest

from guard import code, text
from guard.tree import PACKAGE, ROOT, modules, name, tracked

MOST_LINES = 400
MOST_NAMES = 12
MADE = ("ui/src/api.d.ts",)
"""Made by a tool from the server's description; nobody reads it."""
LOCKS = ("requirements.txt", "requirements-dev.txt", "requirements-node.txt")
CODE = {".py", ".ts", ".tsx", ".typ"}


def readable() -> list[tuple[Path, str]]:
    texts = []
    for path in tracked():
        raw = path.read_bytes()
        if b"\0" not in raw:
            texts.append((path, raw.decode("utf-8")))
    return texts


def test_files_are_short() -> None:
    own = [(name(p), s.count("\n")) for p, s in readable() if p.suffix in CODE and name(p) not in MADE]
    assert not [(which, lines) for which, lines in own if lines > MOST_LINES]


def test_modules_offer_few_names() -> None:
    offered = {name(p): code.public_names(p.read_text("utf-8")) for p in modules()}
    assert not {k: len(v) for k, v in offered.items() if len(v) > MOST_NAMES}


def test_public_names_are_counted() -> None:
    source = "A, B = 1, 2\nC: int = 3\n_d = 4\ndef e(): ...\nclass F: ...\nfrom x import y\nA = 5"
    assert code.public_names(source) == ["A", "B", "C", "e", "F"]


def test_names_say_something() -> None:
    own = [p for p in tracked() if p.suffix in CODE and ("src" in p.parts or "tools" in p.parts)]
    folders = [p for p in PACKAGE.rglob("*") if p.is_dir() and p.name != "__pycache__"]
    assert not [name(p) for p in (*own, *folders) if text.bad_name(p.stem)]


@pytest.mark.parametrize("stem", ["rules2", "rules_more", "utils", "helpers", "plan_old", "part_2"])
def test_a_bad_name_is_seen(stem: str) -> None:
    assert text.bad_name(stem)


def test_package_files_hold_a_docstring_only() -> None:
    rooms = [p for p in modules() if p.name == "__init__.py"]
    assert rooms
    assert not [
        name(p) for p in rooms if code.imports(p.read_text("utf-8")) or not code.docstring_only(p.read_text("utf-8"))
    ]


def test_a_busy_package_file_is_seen() -> None:
    assert code.docstring_only('"""Room."""\n\n__version__ = "1"\n')
    assert not code.docstring_only('"""Room."""\nfrom . import x\n')
    assert not code.docstring_only('"""Room."""\nx = compute()\n')
    assert not code.docstring_only("x = 1\n")


def test_no_registry_address() -> None:
    assert not {name(p): found for p, s in readable() if (found := text.addresses(s))}


def test_locks_hold_no_address_and_every_hash() -> None:
    for lock in LOCKS:
        written = (ROOT / lock).read_text("utf-8")
        assert not text.links(written)
        entries = written.replace("\\\n", " ").splitlines()
        assert entries
        assert not [e for e in entries if "==" not in e or "--hash=sha256:" not in e]


def test_no_machine_path() -> None:
    assert not {name(p): found for p, s in readable() if (found := text.machine_paths(s))}


def test_no_loose_end() -> None:
    assert not {name(p): found for p, s in readable() if p.suffix in CODE and (found := text.loose_ends(s))}


def test_forbidden_text_is_seen() -> None:
    assert text.addresses("see https://py" + "pi.org/simple")
    assert text.links("numpy @ https" + "://x/y.whl")
    for path in ("/ho" + "me/ada/x", 'open("/wo' + 'rk/a")', "C:\\Us" + "ers\\ada", "../sha" + "red/cases"):
        assert text.machine_paths(path), path
    assert not text.machine_paths("l/min, kg/m3, docs/tmp/ and requests/home/")
    for mark in (
        "# TO" + "DO later",
        "raise NotImple" + "mentedError",
        "@pytest.mark.sk" + "ip",
        "x  # type: igno" + "re",
    ):
        assert text.loose_ends(mark), mark
