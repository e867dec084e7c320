"""How the plan asks for its inputs: drawn where they were told, by a named default where they were not, and noted."""

from __future__ import annotations

from dataclasses import dataclass, field

from parbuckle.plan.defaults import defaults
from parbuckle.quantity.draws import Ensemble
from parbuckle.quantity.frozen import Floats
from parbuckle.quantity.spread import Spread


@dataclass
class Asking:
    """One run through the inputs of a case.

    Parameters
    ----------
    ensemble : Ensemble
        The draws.
    unanswered : list of dict
        What a stage lacks: ``key``, ``stage``, ``why``.
    assumed : list of (str, str)
        Input path and the sentence of each default in use.
    """

    ensemble: Ensemble
    unanswered: list[dict[str, str]] = field(default_factory=list)
    assumed: list[tuple[str, str]] = field(default_factory=list)

    def draw(self, path: str, value: Spread | None, default: str) -> Floats:
        """Draw an input, or its default when the case is silent.

        Parameters
        ----------
        path : str
            Path of the input by ids and names.
        value : Spread or None
            What the case says.
        default : str
            Key of the default.

        Returns
        -------
        Floats
            SI, shape (n,).
        """
        return self.ensemble.draw(path, self.known(path, value, default))

    def known(self, path: str, value: Spread | None, default: str) -> Spread:
        """Give the value of an input, or its default, which is noted.

        Parameters
        ----------
        path : str
            Path of the input.
        value : Spread or None
            What the case says.
        default : str
            Key of the default.

        Returns
        -------
        Spread
            In SI.
        """
        if value is not None:
            return value
        stand_in = defaults()[default]
        note = (path, stand_in.sentence)
        if note not in self.assumed:
            self.assumed.append(note)
        return stand_in.value

    def lacks(self, key: str, stage: str, why: str) -> None:
        """Note an input that a stage lacks.

        Parameters
        ----------
        key : str
            Key of the case.
        stage : str
            Stage that lacks it.
        why : str
            What it is needed for, in one sentence.
        """
        note = {"key": key, "stage": stage, "why": why}
        if note not in self.unanswered:
            self.unanswered.append(note)
