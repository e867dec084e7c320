"""Paper made in a process of its own: the press keeps much memory, and a server lives long."""

from __future__ import annotations

from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context

from parbuckle.desk.exchange import Materials, file_list, file_of


def file_apart(name: str, materials: Materials) -> tuple[bytes, str]:
    """Give one file of a case; paper is set by a process that ends with it.

    Parameters
    ----------
    name : str
        Its name in the list.
    materials : Materials
        What it is made from.

    Returns
    -------
    tuple of bytes and str
        What stands in it, and its media type.

    Raises
    ------
    CallError
        If there is no such file, or it cannot be had; with the reason.

    Notes
    -----
    A process that has set a dozen briefs held some 700 MB, and does not give them back.
    """
    can = {row["name"] for row in file_list(materials) if row["why_not"] is None}
    if not (name.endswith(".pdf") and name in can):
        return file_of(name, materials)
    with ProcessPoolExecutor(1, mp_context=get_context("spawn")) as press:
        return press.submit(file_of, name, materials).result()
