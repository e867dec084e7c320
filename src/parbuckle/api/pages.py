"""The built page and its type, from the package itself: nothing is fetched from anywhere else."""

from __future__ import annotations

from pathlib import Path

from fastapi import FastAPI
from fastapi.responses import FileResponse, PlainTextResponse, Response

from parbuckle.api.guarding import refusal

_LASTING = "public, max-age=31536000, immutable"
_NOT_BUILT = "The page is not built. Run: python3 dev.py run serve. It builds the page first.\n"
_NOT_HERE = "There is nothing under this address. Go back to /\n"


def page_routes(app: FastAPI, folder: Path) -> None:
    """Put the page under every address that is not of the API.

    Parameters
    ----------
    app : FastAPI
        The app.
    folder : Path
        What the page was built into; ``index.html`` answers for ``/``.
    """

    @app.get("/{name:path}", include_in_schema=False)
    def page(name: str) -> Response:
        files = {file.relative_to(folder).as_posix(): file for file in folder.rglob("*") if file.is_file()}
        file = files.get(name or "index.html")
        if file is None:
            return _missing(name, bool(files))
        lasting = name.startswith("assets/")  # their names hold a digest of what is in them
        return FileResponse(file, headers={"Cache-Control": _LASTING if lasting else "no-cache"})


def _missing(name: str, built: bool) -> Response:
    if name.startswith("api/"):
        return refusal(404, "There is nothing under this address.")
    return PlainTextResponse(_NOT_HERE if built else _NOT_BUILT, 404)
