"""The normal distribution and its inverse over arrays, without scipy."""

from __future__ import annotations

import math

import numpy as np

from parbuckle.quantity.frozen import Floats

NINETEEN_IN_TWENTY = 1.959963984540054
"""Standard deviations either side of the mean that hold 19 of 20."""

_A = (
    3.3871328727963666080e0, 1.3314166789178437745e2, 1.9715909503065514427e3, 1.3731693765509461125e4,
    4.5921953931549871457e4, 6.7265770927008700853e4, 3.3430575583588128105e4, 2.5090809287301226727e3,
)  # fmt: skip
_B = (
    1.0, 4.2313330701600911252e1, 6.8718700749205790830e2, 5.3941960214247511077e3,
    2.1213794301586595867e4, 3.9307895800092710610e4, 2.8729085735721942674e4, 5.2264952788528545610e3,
)  # fmt: skip
_C = (
    1.42343711074968357734e0, 4.63033784615654529590e0, 5.76949722146069140550e0, 3.64784832476320460504e0,
    1.27045825245236838258e0, 2.41780725177450611770e-1, 2.27238449892691845833e-2, 7.74545014278341407640e-4,
)  # fmt: skip
_D = (
    1.0, 2.05319162663775882187e0, 1.67638483018380384940e0, 6.89767334985100004550e-1,
    1.48103976427480074590e-1, 1.51986665636164571966e-2, 5.47593808499534494600e-4, 1.05075007164441684324e-9,
)  # fmt: skip
_E = (
    6.65790464350110377720e0, 5.46378491116411436990e0, 1.78482653991729133580e0, 2.96560571828504891230e-1,
    2.65321895265761230930e-2, 1.24266094738807843860e-3, 2.71155556874348757815e-5, 2.01033439929228813265e-7,
)  # fmt: skip
_F = (
    1.0, 5.99832206555887937690e-1, 1.36929880922735805310e-1, 1.48753612908506148525e-2,
    7.86869131145613259100e-4, 1.84631831751005468180e-5, 1.42151175831644588870e-7, 2.04426310338993978564e-15,
)  # fmt: skip


def cumulative(z: float) -> float:
    """Give the chance that a standard normal value lies below z.

    Parameters
    ----------
    z : float
        Distance from the mean in standard deviations; may be infinite.

    Returns
    -------
    float
        Between 0 and 1.

    Examples
    --------
    >>> cumulative(0.0)
    0.5
    """
    return 0.5 * math.erfc(-z / math.sqrt(2.0))


def quantile(u: Floats) -> Floats:
    """Invert the standard normal distribution (Wichura's algorithm AS 241, PPND16).

    Parameters
    ----------
    u : Floats
        Chances, strictly between 0 and 1, any shape.

    Returns
    -------
    Floats
        Standard normal values, relative accuracy about 1e-16.

    Notes
    -----
    Source: M. J. Wichura, Applied Statistics 37 (1988) 477-484; coefficients recalled and judged by scipy in the tests.

    Examples
    --------
    >>> round(float(quantile(np.array([0.975]))[0]), 6)
    1.959964
    """
    q = u - 0.5
    r = 0.180625 - q * q
    out = q * _ratio(_A, _B, r)
    far = np.abs(q) > 0.425
    if far.any():
        tail = np.sqrt(-np.log(np.minimum(u[far], 1.0 - u[far])))
        value = np.where(tail <= 5.0, _ratio(_C, _D, tail - 1.6), _ratio(_E, _F, tail - 5.0))
        out[far] = np.copysign(value, q[far])
    return out


def _ratio(top: tuple[float, ...], bottom: tuple[float, ...], x: Floats) -> Floats:
    a = np.full_like(x, top[-1])
    b = np.full_like(x, bottom[-1])
    for t, d in zip(top[-2::-1], bottom[-2::-1], strict=True):
        a = a * x + t
        b = b * x + d
    return a / b
