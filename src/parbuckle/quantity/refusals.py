"""Why a written value is refused: the sentence that tells the writer what is wrong and what to write instead."""

from __future__ import annotations

import difflib
import re

from parbuckle.quantity.kinds import Kind, all_kinds
from parbuckle.quantity.units import HINTS

_SHOWN = 48  # characters of a wrong text that a message repeats

_REFUSED: tuple[tuple[str, str, str], ...] = (
    (
        r".*[0-9]\s*,\s*[0-9].*",
        "a comma cannot stand in a number",
        "write the point: 1.5; write thousands without a mark: 1200",
    ),
    (r".*[0-9]\s*/\s*[0-9].*", "a fraction cannot stand in a number", "write it with a point: 1.5 for one and a half"),
    (r"\W*(inf|infinity|nan)\b.*", "the number must be finite", "write 'unknown' if it is not known"),
    (
        r".*[0-9]\s*(e|E|\*\*|\^)\s*[-+]?[0-9].*",
        "powers and exponents cannot stand in a number",
        "write the number in full",
    ),
    (r".*[0-9]{16,}.*", "the number has more than 15 digits", "write the digits that are known"),
    (r"-?[0-9.]+\s*-\s*[0-9.]+.*", "a range is written with two points", "write 35..45"),
    (r".*(±|\+-|\+/-)\s*(-|±).*", "the spread after ± is not a plain number", "write one number of 0 or more after ±"),
    (r"-?\.[0-9].*", "a number must not begin with the point", "write 0.5, not .5"),
    (r"\+.*", "a number is written without a plus sign", "leave the sign out"),
)


def why_no_number(text: str, sort: Kind) -> tuple[str, str]:
    """Say why no number could be read.

    Parameters
    ----------
    text : str
        What was written.
    sort : Kind
        Kind of the key.

    Returns
    -------
    tuple of str
        What is wrong; what to do.

    Examples
    --------
    >>> from parbuckle.quantity.kinds import kind
    >>> why_no_number("1,5 m", kind("length"))[0]
    'a comma cannot stand in a number'
    """
    if text == "unknown":
        return "'unknown' cannot stand here: this value has no default", "write the value"
    if not text:
        return "the text is empty", "write the value, or leave the key out"
    if _odd_digits(text):
        return "only the digits 0 to 9 can stand in a number", "type the number again"
    for pattern, what, do in _REFUSED:
        if re.fullmatch(pattern, text, re.ASCII | re.IGNORECASE | re.DOTALL):
            return what, do
    return f"no number could be read; {sort.meaning} is wanted", "begin with the number, then the unit"


def why_no_unit(text: str, word: str, sort: Kind) -> tuple[str, str]:
    """Say why what follows the number is not a unit of this kind.

    Parameters
    ----------
    text : str
        What was written.
    word : str
        What follows the number.
    sort : Kind
        Kind of the key.

    Returns
    -------
    tuple of str
        What is wrong; what to do.

    Examples
    --------
    >>> from parbuckle.quantity.kinds import kind
    >>> why_no_unit("46", "", kind("mass"))[0]
    'the unit is missing'
    """
    if not word:
        return "the unit is missing", f"write the unit after the number, such as '{text} {next(iter(sort.units), '')}'"
    if not sort.units:
        return "this is a plain number: nothing may follow it", "leave the unit out"
    what, do = why_no_number(text, sort)
    if not what.startswith("no number"):
        return what, do
    if word[0] in ".0123456789±":
        what = "the number is not complete, or a range has too many parts"
        return what, "write 5, 5.0, 3..5 or 3..4..5, then the unit"
    for unit in sorted(sort.units, key=len, reverse=True):
        if word.startswith(unit) and not word[len(unit)].isalnum():
            return _after_unit(word[len(unit) :].strip(), unit)
    if word in HINTS:
        return f"'{shorten(word)}' is not a unit here", HINTS[word]
    other = next((k for k in all_kinds().values() if word in k.units), None)
    if other is not None:
        return f"'{word}' belongs to {other.meaning}; here it is {sort.meaning}", "check the key and the unit"
    near = difflib.get_close_matches(word.lower(), [u.lower() for u in sort.units], 1, 0.5)
    found = next((u for u in sort.units if near and u.lower() == near[0]), None)
    return (
        f"'{shorten(word)}' is not a unit here",
        f"did you mean '{found}'?" if found else "write one of the allowed units",
    )


def shorten(text: str) -> str:
    """Repeat a wrong text, cut where it is long, as one printable line.

    Parameters
    ----------
    text : str
        Any text.

    Returns
    -------
    str
        At most 60 characters or so.

    Examples
    --------
    >>> shorten("46 kg")
    '46 kg'
    """
    line = "".join(ch if ch.isprintable() else "\N{REPLACEMENT CHARACTER}" for ch in text[: _SHOWN + 1])
    return line if len(text) <= _SHOWN else f"{line[:_SHOWN]}… ({len(text)} characters)"


def _after_unit(rest: str, unit: str) -> tuple[str, str]:
    if rest.startswith(("±", "+-", "+/-", "..")):
        return "the unit is written once, at the end", f"write it as '46 ± 4 {unit}' or '35..45 {unit}'"
    return f"there is text after the unit: '{shorten(rest)}'", f"end the value with '{unit}'"


def _odd_digits(text: str) -> bool:
    return any(ch.isnumeric() and not ch.isascii() and ch not in "²³" for ch in text)
