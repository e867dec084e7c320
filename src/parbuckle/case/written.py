"""What every model of a written file shares: frozen, no unknown keys, values read by their key's kind."""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated, Any, ClassVar, TypeVar

from pydantic import AwareDatetime, BaseModel, BeforeValidator, ConfigDict, Field, GetCoreSchemaHandler, model_validator
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from parbuckle.quantity.breathing import ALLOWED, Gas, parse_gas
from parbuckle.quantity.errors import CaseError
from parbuckle.quantity.grammar import parse
from parbuckle.quantity.kinds import kind
from parbuckle.quantity.refusals import shorten
from parbuckle.quantity.spread import Spread

UNKNOWN = "unknown"
"""The word for a value or an answer that nobody has."""

T = TypeVar("T")


class Written(BaseModel):
    """Base of all tables of a case or kit file: frozen, strict, no unknown keys; ``unknown`` counts as left out."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True, arbitrary_types_allowed=True, defer_build=True)
    keeps_unknown: ClassVar[bool] = False
    """True where ``unknown`` stays as the answer that was given (questions in words)."""

    @model_validator(mode="before")
    @classmethod
    def _leave_out(cls, raw: Any) -> Any:
        if cls.keeps_unknown or not isinstance(raw, dict) or UNKNOWN not in map(_bare, raw.values()):
            return raw
        optional = {info.alias or name for name, info in cls.model_fields.items() if info.default in (None, "choose")}
        return {key: value for key, value in raw.items() if not (_bare(value) == UNKNOWN and key in optional)}


class Value:
    """Mark of a field that holds a physical value: it is written as text and read by this kind.

    Parameters
    ----------
    kind : str
        Name of the kind.
    floor, ceiling : float, optional
        Limits of this key in SI, where tighter than the kind's.
    positive : bool
        True where zero makes no sense.
    needed : bool
        True where ``unknown`` is no answer, because nothing can stand in for it.
    """

    def __init__(
        self,
        kind: str,
        floor: float | None = None,
        ceiling: float | None = None,
        *,
        positive: bool = False,
        needed: bool = False,
    ) -> None:
        self.kind, self.floor, self.ceiling, self.positive, self.needed = kind, floor, ceiling, positive, needed

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self.read)

    def read(self, raw: object) -> Spread | None:
        """Read one written value; ``unknown`` gives None.

        Parameters
        ----------
        raw : object
            What stands in the file.

        Returns
        -------
        Spread or None
            None when it is unknown.

        Raises
        ------
        PydanticCustomError
            If it does not fit; the reader turns it into a CaseError.
        """
        if raw is None or isinstance(raw, Spread):
            return raw
        if isinstance(raw, str):
            return None if raw.strip() == UNKNOWN and not self.needed else _guarded(self._parse, raw)
        if self.kind in ("days", "number") and isinstance(raw, (int, float)) and not isinstance(raw, bool):
            return _guarded(self._parse, _digits(raw))
        example = f"a text such as '5 {next(iter(kind(self.kind).units), '')}'".replace(" '", "'")
        raise refusal("a value is written as text with its unit", raw, example)

    def _parse(self, text: str) -> Spread:
        return parse(text, self.kind, self.floor, self.ceiling, self.positive)


def answered(text: str | None) -> bool:
    """Say whether a question was answered in words.

    Parameters
    ----------
    text : str or None
        The answer.

    Returns
    -------
    bool
        False when it is left out, empty, or ``unknown``.

    Examples
    --------
    >>> answered("unknown")
    False
    """
    return text is not None and text.strip().lower() not in ("", UNKNOWN)


def refusal(what: str, given: object = "", allowed: str = "", do: str = "") -> PydanticCustomError:
    """Make the error of a field; the reader of the file turns it into a CaseError.

    Parameters
    ----------
    what : str
        What is wrong.
    given : object
        What was given; it is cut to one short line.
    allowed, do : str
        What is allowed, and what to do.

    Returns
    -------
    PydanticCustomError
        To be raised in a validator.
    """
    told = {"what": what, "given": shorten(str(given)), "allowed": allowed, "do": do}
    return PydanticCustomError("written", "{what}", told)


def _guarded(read: Callable[[str], T], text: str) -> T:
    try:
        return read(text)
    except CaseError as error:
        raise refusal(error.what, error.given, error.allowed, error.do) from None


def _bare(raw: object) -> object:
    return raw.strip() if isinstance(raw, str) else None


def _digits(number: float) -> str:
    return str(number) if isinstance(number, int) else f"{number:.15g}"


def _gas(raw: object) -> Gas:
    if isinstance(raw, Gas):
        return raw
    if isinstance(raw, str):
        return _guarded(parse_gas, raw)
    raise refusal("a breathing gas is written as text", raw, ALLOWED)


def _as_tuple(raw: object) -> object:
    return tuple(raw) if isinstance(raw, list) else raw


Rows = Annotated[tuple[T, ...], BeforeValidator(_as_tuple)]
BreathingGas = Annotated[Gas, BeforeValidator(_gas)]
Moment = AwareDatetime
Name = Annotated[str, Field(min_length=1, max_length=200)]
Count = Annotated[int, Field(ge=1, le=1000)]


class Point(Written):
    """A place on the earth, WGS 84."""

    lat: Annotated[float, Field(ge=-90, le=90, allow_inf_nan=False, description="Latitude in degrees, north positive.")]
    lon: Annotated[
        float, Field(ge=-180, le=180, allow_inf_nan=False, description="Longitude in degrees, east positive.")
    ]
