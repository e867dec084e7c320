"""Read a case and its kit from documents instead of files: the same checks, all faults at once, the same case."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator, Mapping
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from parbuckle.case.cross import case_faults, kit_faults
from parbuckle.case.faults import Fault, faults_of, key_text
from parbuckle.case.key_paths import place_of
from parbuckle.case.kit import Kit
from parbuckle.case.lines import DEEPEST
from parbuckle.case.model import Case
from parbuckle.case.moments import with_moments
from parbuckle.case.read import LoadedCase, spans_of, unknown_keys
from parbuckle.case.spans import resolve
from parbuckle.quantity.errors import CaseError, RangeError

M = TypeVar("M", bound=BaseModel)

Document = Mapping[str, Any]

_AS_JSON = (
    (", without quotes", ""),
    ("a text in quotes", "a text"),
    ("a list in [ ]", "a list"),
    ("a table: [name], or { key = value }", "a table"),
    ('write kit = "kit.toml" at the top', "choose a kit for this case"),
)
"""Words of a fault that speak of a file, and what is said of a document."""


@dataclass(frozen=True, slots=True)
class DocFault:
    """One thing that is wrong in a document.

    Parameters
    ----------
    path : tuple
        Keys and list positions (from 0) that lead to it.
    key : str
        The same as it is shown; rows count from 1.
    of : str
        ``case`` or ``kit``.
    what, given, allowed, do : str
        As in :class:`parbuckle.quantity.errors.CaseError`.
    """

    path: tuple[str | int, ...]
    key: str
    of: str
    what: str
    given: str = ""
    allowed: str = ""
    do: str = ""

    def document(self) -> dict[str, Any]:
        """Give it as plain values.

        Returns
        -------
        dict
            The fields by name; the path as a list.
        """
        return asdict(self) | {"path": list(self.path)}


def read_documents(case: Document, kit: Document | None, name: str, folder: Path | None = None) -> LoadedCase:
    """Read a case and its kit from documents.

    Parameters
    ----------
    case : mapping
        The written document of the case.
    kit : mapping or None
        That of its kit.
    name : str
        Name of the case, where a file would have its file name.
    folder : Path, optional
        Where meshes and tracks of the case lie; left out: there is none, and such a file is a fault.

    Returns
    -------
    LoadedCase
        Case and kit in SI.

    Raises
    ------
    CaseError
        For the first fault.
    """
    loaded, faults = check_documents(case, kit, name, folder)
    if loaded is None:
        first = faults[0]
        more = f" ({len(faults) - 1} more)" if len(faults) > 1 else ""
        raise CaseError(
            first.what + more, file=first.of, key=first.key, given=first.given, allowed=first.allowed, do=first.do
        )
    return loaded


def check_documents(
    case: Document, kit: Document | None, name: str, folder: Path | None = None
) -> tuple[LoadedCase | None, tuple[DocFault, ...]]:
    """Check a case and its kit, and read them when nothing is wrong.

    Parameters
    ----------
    case : mapping
        The written document of the case.
    kit : mapping or None
        That of its kit.
    name : str
        Name of the case, where a file would have its file name.
    folder : Path, optional
        Where meshes and tracks of the case lie; left out: there is none, and such a file is a fault.

    Returns
    -------
    tuple of LoadedCase or None and tuple of DocFault
        The case, or None and everything that is wrong.
    """
    read_kit, faults = (None, []) if kit is None else check_kit(kit)
    mine, wrong = _model(case, Case)
    if mine is not None:
        wrong += _files(mine, folder)
    if mine is not None and not faults:
        mine, more = resolve(mine, spans_of(mine, read_kit))
        wrong += [*more, *case_faults(mine, read_kit)]
    told = [*(_told(fault, "case") for fault in wrong), *faults]
    if mine is None or told:
        return None, tuple(told)
    unknown = [*unknown_keys(case), *(unknown_keys(kit, ("kit",)) if kit else ())]
    file = (folder or Path()) / (Path(name.replace("\0", "")).name or "case")
    sealed = file.parent / mine.sealed if mine.sealed else None
    return LoadedCase(mine, read_kit, file, sealed, digest_of(case, kit), tuple(unknown)), ()


def check_kit(kit: Document) -> tuple[Kit | None, list[DocFault]]:
    """Check a kit alone.

    Parameters
    ----------
    kit : mapping
        Its written document.

    Returns
    -------
    tuple of Kit or None and list of DocFault
        The kit, or None and everything that is wrong.
    """
    found, faults = _model(kit, Kit)
    faults += list(kit_faults(found)) if found is not None else []
    return (None if faults else found), [_told(fault, "kit") for fault in faults]


def digest_of(case: Document, kit: Document | None) -> str:
    """Give the digest of a case with its kit: over canonical JSON, so that the order of keys is no change.

    Parameters
    ----------
    case : mapping
        The written document of the case.
    kit : mapping or None
        That of its kit.

    Returns
    -------
    str
        32 hexadecimal digits.

    Examples
    --------
    >>> digest_of({"a": 1, "b": 2}, None) == digest_of({"b": 2, "a": 1}, None)
    True
    """
    texts = [json.dumps(each, sort_keys=True, separators=(",", ":")) if each else "" for each in (case, kit)]
    return hashlib.blake2b("\x1f".join(texts).encode("utf-8", "surrogatepass"), digest_size=16).hexdigest()


def fault_of(error: CaseError | RangeError, case: Document, kit: Document | None) -> DocFault:
    """Turn what a stage refused into a fault of the document.

    Parameters
    ----------
    error : CaseError or RangeError
        What was raised while the plan was made.
    case : mapping
        The written document of the case.
    kit : mapping or None
        That of its kit.

    Returns
    -------
    DocFault
        With the place in the document, as far as the error names it.
    """
    if not isinstance(error, CaseError):
        return DocFault((), "", "case", str(error), do="check the values that it speaks of")
    of, path = place_of(error.key, case, kit)
    return _told(Fault(path, error.what, error.given, error.allowed, error.do), of, error.key)


def _model(written: Document, model: type[M]) -> tuple[M | None, list[Fault]]:
    if _levels(written) > DEEPEST:
        allowed = f"at most {DEEPEST} levels"
        return None, [Fault((), "the tables and lists are nested too deep", "", allowed, "the format needs five")]
    try:
        return model.model_validate(with_moments(written, model)), []
    except ValidationError as report:
        return None, faults_of(report, model)


def _levels(written: object) -> int:
    """Depth of nesting, counted without recursion and no further than it matters."""
    levels, layer = 0, [written]
    while layer and levels <= DEEPEST:
        inside: list[object] = []
        for value in layer:
            inside += value.values() if isinstance(value, Mapping) else value if isinstance(value, list) else ()
        layer, levels = inside, levels + 1
    return levels


_INSTEAD: dict[str | int, str] = {
    "file": "write the measures of a plain shape",
    "track": "write its places under 'along'",
    "log": "write its depth, its time and when it ended",
    "mapping": "write depth, time and end of the dive",
}


def _files(case: Case, folder: Path | None) -> Iterator[Fault]:
    """A document may name a file only where it has a folder, and only inside it."""
    named = [(("object", "measured", n, "file"), row.file) for n, row in enumerate(case.object.measured)]
    named += [(("search", "pass", n, "track"), row.track) for n, row in enumerate(case.search.pass_)]
    earlier = list(enumerate(case.exposure.earlier))
    named += [(("exposure", "earlier", n, key), getattr(row, key)) for n, row in earlier for key in ("log", "mapping")]
    for path, file in named:
        if file is None:
            continue
        if folder is None:
            do = _INSTEAD[path[-1]]
            yield Fault(path, "no files lie beside a case in the app", file, "nothing here", do)
        elif Path(file).is_absolute() or ".." in Path(file).parts:
            yield Fault(path, "a file of a case lies in its own folder", file, "a name relative to the case", "")


def _told(fault: Fault, of: str, key: str = "") -> DocFault:
    allowed, do = fault.allowed, fault.do
    for file_words, words in _AS_JSON:
        allowed, do = allowed.replace(file_words, words), do.replace(file_words, words)
    return DocFault(tuple(fault.path), key or key_text(fault.path), of, fault.what, fault.given, allowed, do)
