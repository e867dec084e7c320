"""From a case to the estimates of its load: measured shapes, with people's own spans and mesh files."""

from __future__ import annotations

import numpy as np

from parbuckle.case.thing import Measured
from parbuckle.load.mesh import mesh_volume, read_mesh
from parbuckle.load.pieces import from_solid
from parbuckle.load.problem import Estimate
from parbuckle.load.shapes import DIMENSIONS, outline_volume
from parbuckle.plan.load_asking import LoadAsking, named
from parbuckle.plan.load_estimates import by_name
from parbuckle.quantity.errors import CaseError
from parbuckle.quantity.frozen import Floats
from parbuckle.quantity.spread import Spread


def from_shapes(ask: LoadAsking) -> list[Estimate]:
    """Make an estimate of each measurement of the case.

    displaced = solid share x outline, mass = density x displaced; a mass or a solid volume that is given comes first.

    Parameters
    ----------
    ask : LoadAsking
        The run through the inputs.

    Returns
    -------
    list of Estimate
        Those that can be made; what the others lack is noted.

    Raises
    ------
    CaseError
        If a shape cannot be, or a mesh file cannot be read.
    """
    made = [_one(ask, *row) for row in by_name((row.by, row) for row in ask.case.object.measured)]
    return [estimate for estimate in made if estimate is not None]


def _one(ask: LoadAsking, name: str, place: int, row: Measured) -> Estimate | None:
    path, key = f"object.measured.{name}", f"object.measured[{place}]"
    outline = _mesh_outline(ask, path, key, row) if row.shape == "mesh" else _outline(ask, path, key, row)
    if outline is None:
        return None
    if row.volume is not None:
        displaced = ask.draw(f"{path}.volume", row.volume)
        if row.solid is not None:
            ask.draw(f"{path}.solid", row.solid)
            ask.assume(f"{path}.solid", "the solid volume is given; the solid share is not needed")
    elif row.mass is not None and row.solid is None and row.material is not None:
        displaced = ask.draw(f"{path}.mass", row.mass) / ask.density(path, f"{key}.material", row.material)
    else:
        displaced = outline * ask.stand_in(f"{path}.solid", row.solid, "solid")
    if row.mass is not None:
        mass = ask.draw(f"{path}.mass", row.mass)
    else:
        mass = displaced * ask.density(path, f"{key}.material", row.material)
    how = row.how or "measured"
    return from_solid(row.by, f"{how}, as a {row.shape}", "shape", mass, displaced, outline, ask.water_density)


def _outline(ask: LoadAsking, path: str, key: str, row: Measured) -> Floats | None:
    sizes: dict[str, Floats] = {}
    for word in DIMENSIONS[row.shape]:
        value: Spread | None = getattr(row, word)
        drawn = None if value is None else _length(ask, f"{path}.{word}", row.by, value)
        if drawn is None:
            ask.lacks(f"{key}.{word}", f"the {row.shape} measured by {row.by} has no volume without it")
            return None
        sizes[word] = drawn
    with named(key, f"a {row.shape}"):
        return outline_volume(row.shape, sizes)


def _length(ask: LoadAsking, path: str, by: str, value: Spread) -> Floats | None:
    """Draw a length; one in hands or arms is turned into metres by that person's own span."""
    if value.kind not in ("hand", "arms"):
        return ask.draw(path, value)
    people = [*ask.case.trainee, *(ask.kit.person if ask.kit else ())]
    span = next((getattr(person.spans, value.kind) for person in people if person.name == by), None)
    if span is None:
        ask.lacks(f"person.{by}.spans.{value.kind}", f"a measurement by {by} is written in this span")
        return None
    return np.asarray(ask.draw(path, value) * ask.draw(f"person.{by}.{value.kind}", span), dtype=np.float64)


def _mesh_outline(ask: LoadAsking, path: str, key: str, row: Measured) -> Floats | None:
    if row.file is None:
        ask.lacks(f"{key}.file", f"the mesh measured by {row.by} has no volume without its file")
        return None
    file = ask.folder / row.file
    if not file.resolve().is_relative_to(ask.folder.resolve()):
        raise CaseError(
            "the mesh file lies outside the folder of the case",
            key=f"{key}.file",
            given=row.file,
            allowed="a path below the folder of the case file",
        )
    with named(f"{key}.file", row.file):
        volume = mesh_volume(read_mesh(file))
    if row.scale is None:
        ask.assume(f"{path}.scale", "unit of the mesh file not told: 1 m (assumption)")
        return np.full(ask.asking.ensemble.n, volume)
    return np.asarray(volume * ask.draw(f"{path}.scale", row.scale) ** 3, dtype=np.float64)
