"""The one ensemble: a Latin-hypercube uniform for each uncertain input, keyed by the input's own path."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, field
from functools import lru_cache

import numpy as np

from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats
from parbuckle.quantity.spread import Spread

_KEEP = 8192  # longest column of uniforms that is kept between plans


def uniforms(seed: int, path: str, n: int) -> Floats:
    """Give n stratified uniforms for one input: u = (rank + jitter) / n.

    Ranks are the order of n raw Philox words keyed by a hash of seed and path; jitter comes from the next n words. A
    new input therefore changes no other, and any n will do.

    Parameters
    ----------
    seed : int
        Seed of the plan.
    path : str
        Path of the input by ids and names, never by index.
    n : int
        Number of draws; 1 gives the middle, 0.5.

    Returns
    -------
    Floats
        Strictly between 0 and 1, shape (n,), not writeable.

    Examples
    --------
    >>> float(uniforms(1, "load.mass", 1)[0])
    0.5
    """
    if n < 1:
        raise RangeError(f"{n} draws were asked for; at least 1 is needed")
    return _kept(seed, path, n) if n <= _KEEP else _columns(seed, path, n)


def _columns(seed: int, path: str, n: int) -> Floats:
    if n == 1:
        u = np.array([0.5])
    else:
        key = int.from_bytes(hashlib.blake2b(f"{seed}\x1f{path}".encode(), digest_size=16).digest(), "little")
        words = np.random.Philox(key=key).random_raw(2 * n)
        rank = np.empty(n)
        rank[np.argsort(words[:n], kind="stable")] = np.arange(n)
        jitter = ((words[n:] >> np.uint64(12)).astype(np.float64) + 0.5) * 2.0**-52
        u = np.minimum((rank + jitter) / n, 1.0 - 2.0**-53)
    u.flags.writeable = False
    return u


_kept = lru_cache(maxsize=1024)(_columns)


@dataclass
class Ensemble:
    """All draws of one plan: asks for inputs by path and remembers which were uncertain.

    Parameters
    ----------
    n : int
        Number of draws; 1 means all inputs at their middle.
    seed : int
        Seed of the plan.
    inputs : dict of str to Floats
        Uniforms of the uncertain inputs asked for so far, by path.
    cuts : list of str
        Paths whose spread was cut at a physical limit.
    """

    n: int = 1024
    seed: int = 1
    inputs: dict[str, Floats] = field(default_factory=dict)
    cuts: list[str] = field(default_factory=list)

    def uniform(self, path: str) -> Floats:
        """Give the uniforms of an input and note it as uncertain.

        Parameters
        ----------
        path : str
            Path of the input.

        Returns
        -------
        Floats
            Shape (n,).
        """
        u = uniforms(self.seed, path, self.n)
        self.inputs[path] = u
        return u

    def draw(self, path: str, spread: Spread) -> Floats:
        """Draw one input.

        Parameters
        ----------
        path : str
            Path of the input by ids and names.
        spread : Spread
            The value with its spread.

        Returns
        -------
        Floats
            SI values, shape (n,).
        """
        if spread.exact:
            return np.full(self.n, spread.mid)
        if spread.is_cut and path not in self.cuts:
            self.cuts.append(path)
        return spread.at(self.uniform(path))
