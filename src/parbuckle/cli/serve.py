"""``parbuckle serve``: the app, in the browser of this machine; nothing leaves it."""

from __future__ import annotations

import argparse
import os
import socket
from typing import Any

PORT = 8470
"""Where the app is found unless another port is asked for."""

_HERE = "127.0.0.1"


def add(subparsers: Any) -> None:
    """Add the command to the parser.

    Parameters
    ----------
    subparsers : argparse._SubParsersAction
        Where commands are added.
    """
    command = subparsers.add_parser(
        "serve", help="the app in the browser: plan it in the evening", description=__doc__, allow_abbrev=False
    )
    command.add_argument("--demo", action="store_true", help="three invented cases, in a store of their own")
    command.add_argument("--port", metavar="N", type=int, default=PORT, help=f"port (default {PORT}; 0: a free one)")
    command.set_defaults(run=run)


def run(args: argparse.Namespace) -> int:
    """Serve until it is stopped.

    Parameters
    ----------
    args : argparse.Namespace
        The parsed call.

    Returns
    -------
    int
        0 when it was stopped.

    Raises
    ------
    CallError
        If the port is taken, or the folder or the store cannot be used.
    """
    from parbuckle.api.server import serve
    from parbuckle.cli.output import say
    from parbuckle.desk.home import find_home

    home = find_home(args.demo)
    listener = _listen(args.port)
    say(f"Cases are kept in {home.folder}. Stop with Ctrl+C.")
    serve(home, listener, args.demo, lambda: print(f"http://{_HERE}:{listener.getsockname()[1]}/", flush=True))
    return 0


def _listen(port: int) -> socket.socket:
    from parbuckle.quantity.errors import CallError

    listener = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    if os.name != "nt":  # there it would let two servers share the port
        listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listener.bind((_HERE, port))
        listener.listen()
    except (OSError, OverflowError) as error:
        listener.close()
        raise CallError(f"--port {port}: {_why(error)}") from error
    return listener


def _why(error: Exception) -> str:
    if isinstance(error, OSError):
        return f"{error.strerror}. Is the app running already? Otherwise give another --port."
    return "this is no port. Allowed: 0 to 65535."
