"""Physical constants: the one place where g and R stand."""

from __future__ import annotations

G = 9.80665
"""Standard acceleration of free fall, m/s2 (exact; 3rd CGPM, 1901)."""

R = 8.314462618
"""Molar gas constant, J/(mol K) (exact to the digits given; SI of 2019, CODATA 2018)."""

ATMOSPHERE = 101325.0
"""Standard atmosphere, Pa (exact; 10th CGPM, 1954)."""

ZERO_C = 273.15
"""Zero of the Celsius scale, K (exact)."""

MOLAR_MASS_AIR = 0.02896546
"""Molar mass of dry air, kg/mol (CIPM-2007, Picard and others, Metrologia 45 (2008) 149-155; recalled)."""

GAS_CONSTANT_AIR = R / MOLAR_MASS_AIR
"""Gas constant of dry air, J/(kg K)."""

GAMMA_AIR = 1.4
"""Ratio of the specific heats of air near room temperature (common practice; diatomic gas)."""
