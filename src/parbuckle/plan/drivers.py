"""What drives a band: first-order shares of the inputs by additive regression on Legendre polynomials."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from parbuckle.quantity.frozen import Floats

_DEGREE = 3  # Legendre degrees in use: 1 to 3
_DRAWS = 4096  # the regression looks at so many draws at most
_TOGETHER = "together"


def drivers(values: Floats, inputs: Mapping[str, Floats]) -> list[tuple[str, float]]:
    """Give the share of the variance of an answer that each input explains on its own.

    values = mean + sum_i sum_d c_id P_d(2 u_i - 1) + rest; share_i = (sum_d c_id^2 / (2d + 1) - noise) / variance.

    Parameters
    ----------
    values : Floats
        The answer, shape (n,).
    inputs : Mapping of str to Floats
        Uniforms of the inputs by path, shape (n,) each.

    Returns
    -------
    list of (str, float)
        Path and share, largest first; the last is ``together``: what no single input explains. Empty when nothing
        varies or there are too few draws.

    Notes
    -----
    Noise is what a polynomial would explain by accident: the residual variance over n for each coefficient, subtracted.
    Method: additive polynomial regression, shares as in a first-order analysis of variance (I. M. Sobol, 1993,
    recalled).
    """
    y = values[:_DRAWS]
    n, k = y.size, len(inputs)
    spread = float(np.var(y))
    if spread <= 1e-24 * max(1.0, float(np.mean(y * y))) or n <= 4 * (1 + _DEGREE * k):
        return []
    paths = sorted(inputs)
    columns = [np.ones(n)]
    for path in paths:
        x = 2.0 * inputs[path][:n] - 1.0
        columns += [x, 0.5 * (3 * x * x - 1), 0.5 * (5 * x**3 - 3 * x)]
    basis = np.stack(columns, axis=1)
    solved = np.linalg.solve(basis.T @ basis, basis.T @ y)  # stratified uniforms: the columns are all but orthogonal
    rest = y - basis @ solved
    noise = float(rest @ rest) / (n - basis.shape[1]) / n
    weights = 1.0 / (2.0 * np.arange(1, _DEGREE + 1) + 1.0)
    coefficients = solved[1:].reshape(k, _DEGREE)
    shares = np.maximum((coefficients**2 * weights).sum(axis=1) - _DEGREE * noise, 0.0) / spread
    told = sorted(((p, float(s)) for p, s in zip(paths, shares, strict=True)), key=lambda row: (-row[1], row[0]))
    return [*told, (_TOGETHER, max(0.0, 1.0 - sum(s for _, s in told)))]
