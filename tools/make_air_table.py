"""Make src/parbuckle/data/air_table.json: the compressibility of air on a grid, from a reference equation of state.

Run it by hand when the grid changes: ``python tools/make_air_table.py``. It needs CoolProp; a plan does not.
"""

from __future__ import annotations

import json
from pathlib import Path

import numpy as np
from CoolProp.CoolProp import PropsSI, get_global_param_string

OUT = Path(__file__).parents[1] / "src" / "parbuckle" / "data" / "air_table.json"
PRESSURES = np.arange(0.0, 350.1, 2.5)  # bar, absolute
TEMPERATURES = np.arange(-10.0, 60.1, 2.5)  # degC


def main() -> None:
    """Write the table; at zero pressure every gas is ideal."""
    grid = [
        [1.0 if p == 0.0 else round(float(PropsSI("Z", "P", p * 1e5, "T", t + 273.15, "Air")), 7) for p in PRESSURES]
        for t in TEMPERATURES
    ]
    table = {
        "what": "compressibility factor Z of dry air, rows by temperature, columns by absolute pressure",
        "source": "Lemmon, Jacobsen, Penoncello and Friend, J. Phys. Chem. Ref. Data 29 (2000) 331-385, "
        f"computed with CoolProp {get_global_param_string('version')}",
        "pressure_bar": {"first": 0.0, "step": 2.5, "count": len(PRESSURES)},
        "temperature_c": {"first": -10.0, "step": 2.5, "count": len(TEMPERATURES)},
        "interpolation_error": 5e-5,
        "z": grid,
    }
    text = json.dumps(table, indent=1)
    text = text.replace("\n   ", " ").replace("\n  ]", "]")
    OUT.write_text(text + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
