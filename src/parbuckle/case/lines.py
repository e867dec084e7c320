"""Where a key stands: a small scanner of TOML that knows keys, tables and brackets, and nothing of values."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

Path = tuple[str | int, ...]

DEEPEST = 12
"""Deepest nesting of brackets and dotted keys that is read; the format itself needs five. Common practice."""

_TOKEN = re.compile(
    r"(?P<skip>[ \t\r]+|\#[^\n]*)"
    r"|(?P<text>\"\"\"(?:[^\\]|\\.)*?\"\"\"|'''.*?'''|\"(?:[^\"\\\n]|\\.)*\"|'[^'\n]*')"
    r"|(?P<line>\n)"
    r"|(?P<sign>[\[\]{}=,.])"
    r"|(?P<word>[^\s\[\]{}=,.\"'#]+)"
    r"|(?P<other>.)",
    re.DOTALL,
)

_TEXT = r"\"(?:[^\"\\\n]|\\.)*+\"|'[^'\n]*+'"
_BRACKET = re.compile(
    r"\#[^\n]*|\"\"\"(?:[^\\]|\\.)*?\"\"\"|'''.*?'''"
    rf"|(?P<dots>(?:[\w-]++|{_TEXT})(?:[ \t]*+\.[ \t]*+(?:[\w-]++|{_TEXT}))++)"
    rf"|{_TEXT}|[\[\]{{}}]",
    re.DOTALL,
)


@dataclass
class _Scan:
    """State of one scan: where we are, and what was found."""

    lines: dict[Path, int] = field(default_factory=dict)
    rows: dict[Path, int] = field(default_factory=dict)  # how many [[rows]] each array of tables has so far
    prefix: Path = ()
    nest: list[tuple[str, Path, int]] = field(default_factory=list)  # bracket, path, index of the list item
    key: list[str] = field(default_factory=list)
    head: str = ""  # "[" or "[[" while a table header is read
    value: bool = False
    line: int = 1


def key_lines(text: str) -> dict[Path, int]:
    r"""Find the line of every key, table and list item.

    Parameters
    ----------
    text : str
        Text of a TOML file; a broken one gives what could be found.

    Returns
    -------
    dict
        Line, counted from 1, by path; list items are counted from 0.

    Examples
    --------
    >>> key_lines('[object]\nname = "Anchor"')[("object", "name")]
    2
    """
    scan = _Scan()
    for match in _TOKEN.finditer(text):
        token = match.group()
        if match.lastgroup == "line":
            _end_line(scan)
        elif scan.value:
            _in_value(scan, token, match.lastgroup or "")
        elif match.lastgroup != "skip":
            _in_key(scan, token)
        scan.line += token.count("\n")
    return scan.lines


def deepest(text: str) -> int:
    """Give the deepest nesting of brackets, or the longest dotted key.

    Parameters
    ----------
    text : str
        Text of a TOML file.

    Returns
    -------
    int
        Number of levels.

    Examples
    --------
    >>> deepest("a = [[1]]")
    2
    """
    depth = most = 0
    for match in _BRACKET.finditer(text):
        token = match.group()
        if token in "[{":
            depth += 1
        elif token in "]}":
            depth -= 1
        elif match.lastgroup == "dots":
            most = max(most, token.count(".") + 1)
        most = max(most, depth)
    return most


def _in_key(scan: _Scan, token: str) -> None:
    if token == "[" and not scan.key:
        scan.head += token
    elif token == "]":
        if scan.head:
            _open_table(scan)
    elif token == "=":
        _open_value(scan)
    elif token == "}":
        _close(scan)
    elif token not in ".,{":
        scan.key.append(token.strip("\"'"))


def _open_table(scan: _Scan) -> None:
    path: Path = ()
    for position, part in enumerate(scan.key):
        path = (*path, part)
        last = position == len(scan.key) - 1
        if last and scan.head == "[[":
            scan.rows[path] = scan.rows.get(path, 0) + 1
            scan.lines.setdefault(path, scan.line)
        if path in scan.rows:
            path = (*path, scan.rows[path] - 1)
    scan.lines.setdefault(path, scan.line)
    scan.prefix, scan.key, scan.head = path, [], ""


def _open_value(scan: _Scan) -> None:
    base = scan.nest[-1][1] if scan.nest else scan.prefix
    path: Path = (*base, *scan.key)
    scan.lines.setdefault(path, scan.line)
    scan.nest.append(("=", path, 0))
    scan.key, scan.value = [], True


def _in_value(scan: _Scan, token: str, sort: str) -> None:
    if sort != "sign":
        return
    if not scan.nest:
        return
    bracket, path, item = scan.nest[-1]
    here: Path = (*path, item) if bracket == "[" else path
    if token == "[":
        scan.nest.append(("[", here, 0))
        scan.lines.setdefault((*here, 0), scan.line)
    elif token == "{":
        scan.nest.append(("{", here, 0))
        scan.lines[here] = scan.line
        scan.value = False
    elif token == "," and bracket == "[":
        scan.nest[-1] = ("[", path, item + 1)
        scan.lines.setdefault((*path, item + 1), scan.line)
    elif token == "," and len(scan.nest) > 1:
        scan.nest.pop()
        scan.value = False
    elif token == "}":
        scan.nest.pop()
        _close(scan)
    elif token == "]":
        _close(scan)


def _close(scan: _Scan) -> None:
    if len(scan.nest) > 1:
        scan.nest.pop()
    scan.value = bool(scan.nest)


def _end_line(scan: _Scan) -> None:
    if not scan.nest or all(bracket == "=" for bracket, _, _ in scan.nest):
        scan.nest, scan.value = [], False
        if not scan.head:
            scan.key = []
