"""A document as the text of a TOML file, and the text of a TOML file as a document."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from pydantic import BaseModel

from parbuckle.case.fields import keys_of
from parbuckle.case.kit import Kit
from parbuckle.case.model import Case
from parbuckle.case.moments import plain, with_moments
from parbuckle.case.source import read_text
from parbuckle.quantity.errors import CallError, CaseError

_MODELS: dict[str, type[BaseModel]] = {"case": Case, "kit": Kit}


def to_toml(document: Mapping[str, Any], header_comment: str = "", of: str = "case") -> str:
    """Write a document as the text of a TOML file.

    Parameters
    ----------
    document : mapping
        The written document of a case or a kit; it need not be valid.
    header_comment : str
        Lines that stand on top as a comment.
    of : str
        ``case`` or ``kit``.

    Returns
    -------
    str
        The text; read again it gives the same document, but for what is null.

    Raises
    ------
    CallError
        If there is no such kind of document.

    Examples
    --------
    >>> print(to_toml({"schema": 1, "site": {"depth": "9 m"}}, "mine"))
    # mine
    <BLANKLINE>
    schema = 1
    <BLANKLINE>
    [site]
    depth = "9 m"
    <BLANKLINE>
    """
    import tomli_w

    if of not in _MODELS:
        raise CallError(f"a document is of a case or of a kit, not of {of!r}")
    comment = "".join(f"# {line}".rstrip() + "\n" for line in header_comment.splitlines())
    text = tomli_w.dumps(_without_null(with_moments(document, _MODELS[of])))
    return (comment + ("\n" if comment else "") + text).encode("utf-8", "replace").decode()


def from_toml(text: str, what: str = "the case") -> dict[str, Any]:
    r"""Read the text of a TOML file as a document.

    Parameters
    ----------
    text : str
        The whole text.
    what : str
        What it is called in an error.

    Returns
    -------
    dict
        The document; nothing but its form is checked.

    Raises
    ------
    CaseError
        If it is too large, not TOML, nested too deep, or of another version.

    Examples
    --------
    >>> from_toml("schema = 1\n[case]\nlost = 2027-04-10T16:30:00Z")["case"]
    {'lost': '2027-04-10T16:30:00+00:00'}
    """
    tidy = text.removeprefix("\ufeff").replace("\r\n", "\n")
    if "\0" in tidy:
        raise CaseError("this is not a text file", file=what, allowed="TOML as UTF-8 text", do="choose the case file")
    document: dict[str, Any] = plain(read_text(tidy, what).data)
    return document


def must_be(of: str, document: dict[str, Any]) -> dict[str, Any]:
    """Refuse a document that is plainly of the other kind; of a sealed one nothing is repeated.

    Parameters
    ----------
    of : str
        ``case`` or ``kit``.
    document : dict
        The document.

    Returns
    -------
    dict
        The same document.

    Raises
    ------
    CaseError
        If it is a kit where a case is wanted, a case where a kit is, or the sealed file of a lesson.
    """
    if isinstance(document.get("object"), str):
        do = "choose the case that belongs to it"
        raise CaseError("this is the sealed file of a lesson, not a case", file=f"the {of}", key="object", do=do)
    looks = {"case": keys_of(Case).keys() - keys_of(Kit).keys(), "kit": keys_of(Kit).keys() - keys_of(Case).keys()}
    other = "kit" if of == "case" else "case"
    strange = sorted(document.keys() & looks[other])
    if strange and not document.keys() & looks[of]:
        do = f"choose the {of} file"
        raise CaseError(
            f"this looks like a {other}, not a {of}", file=f"the {of}", key=strange[0], given=strange[0], do=do
        )
    return document


def _without_null(written: Any) -> Any:
    if isinstance(written, Mapping):
        return {key: _without_null(value) for key, value in written.items() if value is not None}
    if isinstance(written, list):
        return [_without_null(value) for value in written if value is not None]
    return written
