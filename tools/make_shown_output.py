"""Fill the blocks of real output in README.md and docs/guide.md by running the commands.

A block is a fenced block under one of these comments:

    <!-- given: mine.toml -->                        the block is written to that file before what follows is run
    <!-- added: base.toml to mine.toml -->           the same, with the block put behind an example or a given file
    <!-- shown: plan mine.toml | Weight to Bags -->  the block is replaced by what the command says: whole, or from the
                                                     line that begins with the first words to before the second;
                                                     LAST is the last line

Run: ``python tools/make_shown_output.py`` (``--check`` only compares).
"""

from __future__ import annotations

import os
import re
import shlex
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
PAGES = (ROOT / "README.md", ROOT / "docs" / "guide.md")
EXAMPLES = ROOT / "src" / "parbuckle" / "data" / "cases"
BLOCK = re.compile(
    r"<!-- (?P<verb>given|added|shown): (?P<what>[^|\n]+?)(?: \| (?P<part>[^\n]+?))? -->\n+"
    r"```(?P<kind>\w+)\n(?P<body>.*?)```",
    re.DOTALL,
)


def filled(page: str) -> str:
    """Give a page with its blocks of output made anew.

    Parameters
    ----------
    page : str
        Text of the page.

    Returns
    -------
    str
        The same text with current output.
    """
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for example in EXAMPLES.glob("*.toml"):
            (folder / example.name).write_bytes(example.read_bytes())
        outputs: dict[str, str] = {}
        return BLOCK.sub(lambda match: _block(match, folder, outputs), page)


def _block(match: re.Match[str], folder: Path, outputs: dict[str, str]) -> str:
    verb, what = match["verb"], match["what"]
    if verb == "given":
        (folder / what).write_text(match["body"], encoding="utf-8")
        return match[0]
    if verb == "added":
        base, _, name = what.partition(" to ")
        text = (folder / base).read_text(encoding="utf-8")
        (folder / name).write_text(f"{text}\n{match['body']}", encoding="utf-8")
        return match[0]
    if what not in outputs:
        outputs[what] = _run(what, folder)
    lines = _part(outputs[what], match["part"] or "")
    start = match[0].index("```")
    return f"{match[0][:start]}```{match['kind']}\n{lines}```"


def _run(command: str, folder: Path) -> str:
    """Run a command of the program and give all that it says, without the spaces that fill a line."""
    env = {**os.environ, "PYTHONPATH": str(ROOT / "src"), "COLUMNS": "100", "NO_COLOR": "1"}
    call = [sys.executable, "-m", "parbuckle", *shlex.split(command)]
    done = subprocess.run(
        call, cwd=folder, env=env, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, encoding="utf-8", check=False
    )
    if "A fault in the program" in done.stdout:
        raise RuntimeError(f"{command}: {done.stdout}")
    return "".join(line.rstrip() + "\n" for line in done.stdout.splitlines())


def _part(text: str, wanted: str) -> str:
    """Give the lines from one that begins with the first words to before one that begins with the second."""
    if not wanted:
        return text.strip("\n") + "\n"
    lines = text.splitlines(keepends=True)
    if wanted == "LAST":
        return lines[-1]
    first, _, last = wanted.partition(" to ")
    begin = next((i for i, line in enumerate(lines) if line.startswith(first)), None)
    if begin is None:
        raise RuntimeError(f"no line begins with {first!r} in:\n{text}")
    end = next((i for i in range(begin + 1, len(lines)) if last and lines[i].startswith(last)), len(lines))
    return "".join(lines[begin:end])


def main() -> int:
    """Fill the pages, or with ``--check`` say whether they are current."""
    current = True
    for page in PAGES:
        before = page.read_text(encoding="utf-8")
        after = filled(before)
        current = current and before == after
        if "--check" not in sys.argv:
            page.write_text(after, encoding="utf-8")
    return 0 if current or "--check" not in sys.argv else 1


if __name__ == "__main__":
    sys.exit(main())
