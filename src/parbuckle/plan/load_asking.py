"""How the load asks for its inputs: drawn by path, own defaults, sources gathered, errors named by their key."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from functools import cache
from importlib import resources
from pathlib import Path

from parbuckle.case.kit import Kit
from parbuckle.case.model import Case
from parbuckle.load.materials import material, unknown_material
from parbuckle.load.tables import plain, read_table
from parbuckle.plan.asking import Asking
from parbuckle.plan.defaults import Default
from parbuckle.quantity.errors import CaseError, RangeError
from parbuckle.quantity.frozen import Floats
from parbuckle.quantity.grammar import parse
from parbuckle.quantity.spread import Spread

STAGE = "load"
"""Name of the stage in what is unanswered."""


@dataclass
class LoadAsking:
    """One run through the load's inputs.

    Parameters
    ----------
    case : Case
        The case.
    kit : Kit or None
        The kit, for a person's spans and a bag's weight in water.
    asking : Asking
        The plan's own run through the inputs.
    water_density : Floats
        kg/m3, shape (n,).
    ambient_pressure : Floats
        Absolute pressure at the bottom, Pa, shape (n,).
    folder : Path
        Folder of the case file, for mesh files.
    sources : list of str
        Sources of the numbers used so far.
    """

    case: Case
    kit: Kit | None
    asking: Asking
    water_density: Floats
    ambient_pressure: Floats
    folder: Path
    sources: list[str] = field(default_factory=list)

    def draw(self, path: str, value: Spread) -> Floats:
        """Draw an input that the case gives.

        Parameters
        ----------
        path : str
            Path of the input by ids and names.
        value : Spread
            What the case says.

        Returns
        -------
        Floats
            SI, shape (n,).
        """
        return self.asking.ensemble.draw(path, value)

    def stand_in(self, path: str, value: Spread | None, default: str, note: bool = True) -> Floats:
        """Draw an input, or the room's default where the case is silent; the default is noted.

        Parameters
        ----------
        path : str
            Path of the input.
        value : Spread or None
            What the case says.
        default : str
            Key of the table of the load's defaults.
        note : bool
            False for inputs that a case cannot give.

        Returns
        -------
        Floats
            SI, shape (n,).
        """
        if value is not None:
            return self.draw(path, value)
        entry = load_defaults()[default]
        if note:
            self.assume(path, entry.sentence)
        return self.draw(path, entry.value)

    def assume(self, path: str, sentence: str) -> None:
        """Note what stands in for something that the case does not say.

        Parameters
        ----------
        path : str
            Path of the input.
        sentence : str
            What stands in, and why.
        """
        if (path, sentence) not in self.asking.assumed:
            self.asking.assumed.append((path, sentence))

    def lacks(self, key: str, why: str) -> None:
        """Note what an estimate lacks, so that it is left out.

        Parameters
        ----------
        key : str
            Key of the case.
        why : str
            What it is needed for.
        """
        self.asking.lacks(key, STAGE, why)

    def density(self, path: str, key: str, name: str | None) -> Floats:
        """Draw the density of a material; all that is of one material shares the draw.

        Parameters
        ----------
        path : str
            Path of the piece, for a material that nobody knows: such pieces share nothing.
        key : str
            Key of the material in the case, for the text of an error.
        name : str or None
            Name of the material as written.

        Returns
        -------
        Floats
            kg/m3, shape (n,).

        Raises
        ------
        CaseError
            If the table has no such material; it suggests the nearest.
        """
        if name is None or plain(name) in ("unknown", ""):
            entry = unknown_material()
            self.assume(f"{path}.material", f"material not told: {entry.spread.text} ({entry.source})")
            return self.draw(f"{path}.density", entry.spread)
        with named(key, name):
            entry = material(name)
        self.cite(f"{entry.name}: {entry.source} [{entry.mark}]")
        return self.draw(f"material.{entry.name}", entry.spread)

    def cite(self, source: str) -> None:
        """Note a source once.

        Parameters
        ----------
        source : str
            Source with its mark.
        """
        if source not in self.sources:
            self.sources.append(source)

    def exact_or_not(self, path: str, value: Spread | None, how: str | None) -> None:
        """Note a number written without a spread whose origin is seldom exact; it stays exact.

        Parameters
        ----------
        path : str
            Path of the input.
        value : Spread or None
            What the case says.
        how : str or None
            Where the number comes from.
        """
        if value is None or how is None or not value.exact:
            return
        for row in read_table("how")["how"]:
            if plain(how) in (row["name"], *row.get("also", ())):
                usual = f"a number that was {how} is seldom better than ± {row['share']:.0%}"
                self.assume(path, f"{value.text} is taken as exact; {usual} ({row['mark']})")


@contextmanager
def named(key: str, given: str) -> Iterator[None]:
    """Turn a refusal by a law or a table into an error of the case that names its key.

    Parameters
    ----------
    key : str
        Key of the case.
    given : str
        What was given.

    Yields
    ------
    None
        Once.

    Raises
    ------
    CaseError
        If the law or the table refuses.
    """
    try:
        yield
    except CaseError as error:
        if error.key:
            raise
        raise CaseError(error.what, key=key, given=error.given or given, allowed=error.allowed, do=error.do) from None
    except RangeError as error:
        raise CaseError(str(error), key=key, given=given) from None


@cache
def load_defaults() -> dict[str, Default]:
    """Read the load's own defaults.

    Returns
    -------
    dict of str to Default
        By key.
    """
    text = resources.files("parbuckle.data").joinpath("load_defaults.toml").read_text(encoding="utf-8")
    return {
        key: Default(replace(parse(row["value"], row["kind"]), assumed=True), row["name"], row["mark"], row["source"])
        for key, row in tomllib.loads(text).items()
    }
