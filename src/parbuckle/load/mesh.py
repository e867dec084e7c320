"""Triangle meshes: small readers for STL, OBJ, OFF and PLY (text), volume and closedness."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from parbuckle.quantity.errors import RangeError
from parbuckle.quantity.frozen import Floats

Indices = NDArray[np.int64]

LARGEST = 50_000_000
"""Largest mesh file that is read, bytes (house default; far above what a hand-made model needs)."""

_STL_HEAD = 84  # bytes before the first triangle of a binary STL file


@dataclass(frozen=True)
class Mesh:
    """A surface of triangles.

    Parameters
    ----------
    vertices : Floats
        Corners, m or the file's own unit, shape (v, 3).
    faces : Indices
        Corners of each triangle, counted from 0, shape (f, 3).
    """

    vertices: Floats
    faces: Indices


def read_mesh(path: Path) -> Mesh:
    """Read a mesh by the ending of its name: .stl (text or binary), .obj, .off, .ply (text).

    Parameters
    ----------
    path : Path
        The file.

    Returns
    -------
    Mesh
        Corners that lie at one place are one.

    Raises
    ------
    RangeError
        If the file is missing, too large, of another kind, or damaged.
    """
    readers = {".stl": _stl, ".obj": _obj, ".off": _off, ".ply": _ply}
    kind = path.suffix.lower()
    if kind not in readers:
        raise RangeError(f'mesh "{path.name}": {kind or "no ending"} is not read; allowed: {", ".join(readers)}')
    try:
        if path.stat().st_size > LARGEST:
            raise RangeError(f'mesh "{path.name}" is larger than {LARGEST // 1_000_000} MB')
        data = path.read_bytes()
    except OSError as error:
        raise RangeError(f'mesh "{path.name}" cannot be read: {error.strerror or "unknown reason"}') from None
    try:
        vertices, faces = readers[kind](data)
        return _checked(vertices, faces, path.name)
    except (ValueError, IndexError, KeyError, UnicodeDecodeError) as error:
        if isinstance(error, RangeError):
            raise
        raise RangeError(f'mesh "{path.name}" is damaged or not what its ending says') from None


def mesh_volume(mesh: Mesh) -> float:
    """Give the volume inside by the divergence theorem: V = 1/6 sum a . (b x c).

    Parameters
    ----------
    mesh : Mesh
        A closed surface.

    Returns
    -------
    float
        Volume, m3 or the cube of the file's unit; never negative. Valid for a closed surface that does not cut itself.

    Raises
    ------
    RangeError
        If the surface is not closed, or its triangles do not all face one way.

    Notes
    -----
    Source: Gauss's divergence theorem, common practice.

    Examples
    --------
    >>> corner = Mesh(np.vstack([np.zeros(3), np.eye(3)]), np.array([[0, 2, 1], [0, 1, 3], [0, 3, 2], [1, 2, 3]]))
    >>> round(mesh_volume(corner), 6)
    0.166667
    """
    if not is_closed(mesh):
        raise RangeError("the mesh is not closed, or its triangles do not all face one way: it holds no volume")
    a, b, c = (mesh.vertices[mesh.faces[:, i]] - mesh.vertices.mean(axis=0) for i in range(3))
    return abs(float(np.einsum("ij,ij->", a, np.cross(b, c)))) / 6.0


def is_closed(mesh: Mesh) -> bool:
    """Tell whether the surface is closed: each edge is run once in each direction.

    Parameters
    ----------
    mesh : Mesh
        A surface.

    Returns
    -------
    bool
        True when closed and all triangles face one way. The sum of the area vectors, which the divergence theorem wants
        to be zero, is not enough: a pipe open at both ends has that too.

    Examples
    --------
    >>> is_closed(Mesh(np.eye(3), np.array([[0, 1, 2]])))
    False
    """
    f = mesh.faces
    if f.size == 0:
        return False
    edges = np.concatenate([f[:, [0, 1]], f[:, [1, 2]], f[:, [2, 0]]])
    count = np.int64(mesh.vertices.shape[0])
    there, back = edges[:, 0] * count + edges[:, 1], edges[:, 1] * count + edges[:, 0]
    there.sort()
    back.sort()
    return bool(np.array_equal(there, back)) and bool((np.diff(there) != 0).all())


def longest_side(mesh: Mesh) -> float:
    """Give the longest side of the box around the mesh.

    Parameters
    ----------
    mesh : Mesh
        A surface.

    Returns
    -------
    float
        m, or the file's unit.
    """
    return float(np.ptp(mesh.vertices, axis=0).max())


def _checked(vertices: Floats, faces: Indices, name: str) -> Mesh:
    if faces.size == 0 or vertices.size == 0:
        raise RangeError(f'mesh "{name}" holds no triangle')
    if not np.isfinite(vertices).all():
        raise RangeError(f'mesh "{name}" holds a corner that is not a number')
    if int(faces.min()) < 0 or int(faces.max()) >= vertices.shape[0]:
        raise RangeError(f'mesh "{name}" names a corner that it does not hold')
    places, where = np.unique(vertices + 0.0, axis=0, return_inverse=True)
    merged = where.reshape(-1)[faces]
    flat = (merged[:, 0] == merged[:, 1]) | (merged[:, 1] == merged[:, 2]) | (merged[:, 2] == merged[:, 0])
    return Mesh(places, merged[~flat])


def _stl(data: bytes) -> tuple[Floats, Indices]:
    count = int.from_bytes(data[80:_STL_HEAD], "little")
    if len(data) == _STL_HEAD + 50 * count:
        record = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("rest", "<u2")])
        corners = np.frombuffer(data, record, count, _STL_HEAD)["corners"].astype(np.float64).reshape(-1, 3)
    else:
        words = [line.split() for line in data.decode("ascii").splitlines()]
        corners = np.array([[float(x) for x in w[1:4]] for w in words if w and w[0] == "vertex"], dtype=np.float64)
    return corners, np.arange(corners.shape[0], dtype=np.int64).reshape(-1, 3)


def _fan(corners: list[int]) -> list[list[int]]:
    return [[corners[0], corners[i], corners[i + 1]] for i in range(1, len(corners) - 1)]


def _obj(data: bytes) -> tuple[Floats, Indices]:
    vertices: list[list[float]] = []
    faces: list[list[int]] = []
    for line in data.decode("utf-8").splitlines():
        words = line.split()
        if words[:1] == ["v"]:
            vertices.append([float(x) for x in words[1:4]])
        elif words[:1] == ["f"]:
            numbers = [int(word.split("/")[0]) for word in words[1:]]
            faces += _fan([n - 1 if n > 0 else len(vertices) + n for n in numbers])
    return np.array(vertices, dtype=np.float64), np.array(faces, dtype=np.int64)


def _off(data: bytes) -> tuple[Floats, Indices]:
    lines = [line.split("#")[0].split() for line in data.decode("utf-8").splitlines()]
    rows = [line for line in lines if line]
    if rows[0][0] != "OFF":
        raise ValueError("no OFF header")
    rows = [rows[0][1:], *rows[1:]] if len(rows[0]) > 1 else rows[1:]
    v, f = int(rows[0][0]), int(rows[0][1])
    return _listed(rows[1:], v, f, (0, 1, 2))


def _ply(data: bytes) -> tuple[Floats, Indices]:
    lines = data.decode("ascii").splitlines()
    end = lines.index("end_header")
    head = [line.split() for line in lines[:end]]
    if head[0] != ["ply"] or ["format", "ascii", "1.0"] not in head:
        raise ValueError("not a PLY text file")
    elements = [(words[1], int(words[2])) for words in head if words[:1] == ["element"]]
    if [name for name, _ in elements[:2]] != ["vertex", "face"]:
        raise ValueError("corners and faces must come first")
    start = next(i for i, words in enumerate(head) if words[:2] == ["element", "vertex"])
    stop = next(i for i, words in enumerate(head) if words[:2] == ["element", "face"])
    columns = [words[-1] for words in head[start:stop] if words[:1] == ["property"]]
    places = (columns.index("x"), columns.index("y"), columns.index("z"))
    rows = [line.split() for line in lines[end + 1 :] if line.strip()]
    return _listed(rows, elements[0][1], elements[1][1], places)


def _listed(rows: list[list[str]], v: int, f: int, places: tuple[int, int, int]) -> tuple[Floats, Indices]:
    if len(rows) < v + f:
        raise ValueError("the file ends early")
    vertices = np.array([[float(row[i]) for i in places] for row in rows[:v]], dtype=np.float64)
    faces = [tri for row in rows[v : v + f] for tri in _fan([int(x) for x in row[1 : 1 + int(row[0])]])]
    return vertices, np.array(faces, dtype=np.int64)
