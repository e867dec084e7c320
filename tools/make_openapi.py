"""Write the server's description of itself to ``ui/openapi.json``; the page's types are made from it.

python tools/make_openapi.py            write it
npm --prefix ui run types               make ui/src/api.d.ts from it
"""

from __future__ import annotations

import json
from pathlib import Path

from parbuckle.api.app import make_app
from parbuckle.store.memory import MemoryStore

TARGET = Path(__file__).resolve().parents[1] / "ui" / "openapi.json"


def description() -> str:
    """Give the description as it stands in the file."""
    return json.dumps(make_app(MemoryStore()).openapi(), indent=1, sort_keys=True) + "\n"


if __name__ == "__main__":
    TARGET.write_text(description(), "utf-8")
    print(f"{TARGET.name} is written.")
