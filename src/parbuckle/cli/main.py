"""The ``parbuckle`` command: reads the call, loads only the room that it needs, turns every error into words."""

from __future__ import annotations

import argparse
import difflib
import os
import re
import sys
from collections.abc import Sequence
from pathlib import Path
from types import ModuleType
from typing import NoReturn

from parbuckle import __version__
from parbuckle.cli import ascent, checks, dive, new, plan, search, serve, table
from parbuckle.cli.output import say, speak_utf8
from parbuckle.quantity.errors import ParbuckleError

COMMANDS: tuple[ModuleType, ...] = (plan, search, ascent, dive, table, checks, serve, new)
"""One module for each command; each has ``add(subparsers)`` and ``run(args)``."""

_QUICK = {
    "OPENBLAS_NUM_THREADS": "1",
    "MKL_NUM_THREADS": "1",
    "VECLIB_MAXIMUM_THREADS": "1",
    "PYDANTIC_DISABLE_PLUGINS": "__all__",
}
"""Settings of libraries, unless the user has set them. Matrices get one thread: ours are small, so a second one only
waits and burns a core, and the last bits of an answer would hang on the number of cores. Plugins are not looked for: we
use none."""

_CODES = "Exit code: 0 no stop found, 1 the call or a file is wrong, 2 stops or must-answers are open."


class Parser(argparse.ArgumentParser):
    """An argument parser that ends with 1 on a wrong call and suggests the nearest option."""

    def error(self, message: str) -> NoReturn:
        """Say what is wrong with the call, and end.

        Parameters
        ----------
        message : str
            What argparse found.
        """
        self.print_usage(sys.stderr)
        self.exit(1, f"{self.prog}: {message}{self._nearest(message)}\n")

    def _nearest(self, message: str) -> str:
        known = _known(self)
        given = [word for word in re.findall(r"(?<=')[^']+(?=')|--[\w-]+", message)[:1] if word not in known]
        near = [n for word in given for n in difflib.get_close_matches(word, known, n=1)]
        return f" (did you mean {near[0]}?)" if near else ""


def _known(top: argparse.ArgumentParser) -> list[str]:
    """List the commands and options of a parser and its subparsers."""
    inner = [a.choices for a in top._actions if isinstance(a, argparse._SubParsersAction)]
    return [
        *top._option_string_actions,
        *(name for choices in inner for name in choices),
        *(option for choices in inner for child in choices.values() for option in child._option_string_actions),
    ]


def parser() -> argparse.ArgumentParser:
    """Make the parser of the whole command line.

    Returns
    -------
    argparse.ArgumentParser
        With one subparser for each command; ``args.run`` is the function to call.
    """
    top = Parser(prog="parbuckle", description="Plan small underwater recoveries with lift bags.", epilog=_CODES)
    top.add_argument("--version", action="version", version=f"parbuckle {__version__}")
    subparsers = top.add_subparsers(title="commands", metavar="COMMAND", required=True)
    for command in COMMANDS:
        command.add(subparsers)
    return top


def main(argv: Sequence[str] | None = None) -> int:
    """Run the command line.

    Parameters
    ----------
    argv : sequence of str, optional
        Arguments without the program's name; those of the process when left out.

    Returns
    -------
    int
        Exit code: 0 no stop found, 1 the call or a file is wrong, 2 stops or must-answers are open.
    """
    speak_utf8()
    for name, value in _QUICK.items():
        os.environ.setdefault(name, value)
    args = parser().parse_args(argv)
    try:
        code = int(args.run(args))
        sys.stdout.flush()
    except BrokenPipeError:
        os.dup2(
            os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno()
        )  # so that the interpreter's last flush is quiet too
        return 1
    except (Exception, KeyboardInterrupt) as error:
        say(_words(error))
        return 1
    return code


def _words(error: BaseException) -> str:
    if isinstance(error, ParbuckleError):
        return str(error)
    if isinstance(error, KeyboardInterrupt):
        return "Stopped."
    if isinstance(error, OSError) and error.filename:
        return f"{error.filename}: {error.strerror}"
    return _fault(error)


def _fault(error: BaseException) -> str:
    """Name the place of a fault of our own, in a line that can be sent to the maintainers."""
    trace = error.__traceback__
    while trace and trace.tb_next:
        trace = trace.tb_next
    where = f" ({Path(trace.tb_frame.f_code.co_filename).name}, line {trace.tb_lineno})" if trace else ""
    return (
        f"A fault in the program, not in your file: {type(error).__name__}: {error}{where}.\n"
        f"Nothing that it printed may be used. Please report it with your case; this is parbuckle {__version__}."
    )


if __name__ == "__main__":
    sys.exit(main())
