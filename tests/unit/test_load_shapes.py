"""Shapes and meshes: volumes against formulas and against trimesh, and what is refused."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
import trimesh

from parbuckle.load import mesh as ours
from parbuckle.load.shapes import DIMENSIONS, outline_volume
from parbuckle.quantity.errors import RangeError

ROUND = 0.01  # a fine mesh of a round body lies within 1 % of the body


def sizes(**given: float) -> dict[str, np.ndarray]:
    return {name: np.array([value]) for name, value in given.items()}


@pytest.mark.parametrize(
    ("shape", "given", "judge"),
    [
        ("box", {"length": 0.5, "width": 0.3, "height": 0.2}, lambda: trimesh.creation.box((0.5, 0.3, 0.2))),
        ("cylinder", {"diameter": 0.4, "length": 0.7}, lambda: trimesh.creation.cylinder(0.2, 0.7, sections=200)),
        ("sphere", {"diameter": 0.4}, lambda: trimesh.creation.icosphere(5, 0.2)),
        ("cone", {"diameter": 0.4, "length": 0.7}, lambda: trimesh.creation.cone(0.2, 0.7, sections=200)),
        (
            "tube",
            {"diameter": 0.4, "inner_diameter": 0.3, "length": 0.7},
            lambda: trimesh.creation.annulus(0.15, 0.2, 0.7, sections=200),
        ),
        (
            "ellipsoid",
            {"length": 0.6, "width": 0.4, "height": 0.2},
            lambda: trimesh.creation.icosphere(5, 0.5).apply_scale((0.6, 0.4, 0.2)),
        ),
        (
            "torus",
            {"ring_diameter": 0.6, "diameter": 0.1},
            lambda: trimesh.creation.torus(0.3, 0.05, major_sections=200, minor_sections=100),
        ),
    ],
)
def test_a_shape_has_the_volume_of_its_mesh(shape, given, judge) -> None:  # type: ignore[no-untyped-def]
    assert float(outline_volume(shape, sizes(**given))[0]) == pytest.approx(judge().volume, rel=ROUND)


def test_a_prism_is_its_end_times_its_length() -> None:
    assert float(outline_volume("prism", sizes(area=0.02, length=3.0))[0]) == pytest.approx(0.06)


@pytest.mark.parametrize("shape", sorted(DIMENSIONS))
def test_a_missing_dimension_is_named(shape: str) -> None:
    for name in DIMENSIONS[shape]:
        rest = {other: 1.0 + i for i, other in enumerate(DIMENSIONS[shape]) if other != name}
        with pytest.raises(RangeError, match=name):
            outline_volume(shape, sizes(**rest))


@pytest.mark.parametrize("wrong", [0.0, -0.1])
def test_a_dimension_must_be_above_zero(wrong: float) -> None:
    with pytest.raises(RangeError, match="above zero"):
        outline_volume("sphere", sizes(diameter=wrong))


def test_a_tube_keeps_a_wall() -> None:
    solid = outline_volume("tube", sizes(diameter=0.1, inner_diameter=0.0, length=1.0))
    assert float(solid[0]) == pytest.approx(np.pi / 4 * 0.01)
    with pytest.raises(RangeError, match="smaller than the outer"):
        outline_volume("tube", sizes(diameter=0.1, inner_diameter=0.1, length=1.0))


def test_a_ring_has_a_hole() -> None:
    assert outline_volume("torus", sizes(ring_diameter=0.1, diameter=0.099)).size == 1
    with pytest.raises(RangeError, match="torus"):
        outline_volume("torus", sizes(ring_diameter=0.1, diameter=0.1))


def test_an_unknown_shape_is_refused() -> None:
    with pytest.raises(RangeError, match="known: box"):
        outline_volume("pyramid", {})


BODIES = {
    "box": lambda: trimesh.creation.box((0.5, 0.3, 0.2)),
    "ball": lambda: trimesh.creation.icosphere(3, 0.2).apply_translation((10.0, -4.0, 2.0)),
    "ring": lambda: trimesh.creation.torus(0.3, 0.05),
    "pipe": lambda: trimesh.creation.annulus(0.15, 0.2, 0.7),
}


def written(body: trimesh.Trimesh, folder: Path, kind: str) -> Path:
    path = folder / f"body.{'stl' if 'stl' in kind else kind}"
    if kind == "ply":
        path.write_bytes(trimesh.exchange.ply.export_ply(body, encoding="ascii"))
    elif kind == "stl":
        path.write_bytes(trimesh.exchange.stl.export_stl(body))
    elif kind == "text stl":
        path.write_text(trimesh.exchange.stl.export_stl_ascii(body), encoding="ascii")
    elif kind == "obj":
        path.write_text(trimesh.exchange.obj.export_obj(body), encoding="utf-8")
    else:
        path.write_text(trimesh.exchange.off.export_off(body), encoding="utf-8")
    return path


@pytest.mark.parametrize("kind", ["stl", "text stl", "obj", "off", "ply"])
@pytest.mark.parametrize("body", sorted(BODIES))
def test_a_mesh_has_the_volume_that_trimesh_finds(body: str, kind: str, tmp_path: Path) -> None:
    judge = BODIES[body]()
    mine = ours.read_mesh(written(judge, tmp_path, kind))
    assert ours.mesh_volume(mine) == pytest.approx(judge.volume, rel=1e-5)  # binary STL holds seven digits
    assert ours.longest_side(mine) == pytest.approx(judge.extents.max(), rel=1e-5)


def test_faces_with_four_corners_are_read(tmp_path: Path) -> None:
    path = tmp_path / "cube.off"
    corners = "\n".join(f"{x} {y} {z}" for x in (0, 1) for y in (0, 1) for z in (0, 1))
    faces = ("0 1 3 2", "4 6 7 5", "0 4 5 1", "2 3 7 6", "0 2 6 4", "1 5 7 3")
    path.write_text(f"OFF\n8 6 12\n{corners}\n" + "\n".join(f"4 {face}" for face in faces), encoding="utf-8")
    assert ours.mesh_volume(ours.read_mesh(path)) == pytest.approx(1.0)


def test_a_mesh_turned_inside_out_holds_the_same() -> None:
    body = BODIES["box"]()
    assert ours.mesh_volume(ours.Mesh(body.vertices, body.faces[:, ::-1])) == pytest.approx(body.volume)


def test_an_open_mesh_is_refused() -> None:
    body = BODIES["box"]()
    with pytest.raises(RangeError, match="not closed"):
        ours.mesh_volume(ours.Mesh(body.vertices, body.faces[1:]))


def test_a_pipe_open_at_both_ends_is_refused_although_its_area_vectors_cancel() -> None:
    body = trimesh.creation.cylinder(0.2, 0.7)
    wall = body.faces[np.abs(body.face_normals[:, 2]) < 0.5]
    a, b, c = (body.vertices[wall[:, i]] for i in range(3))
    assert np.allclose(np.cross(b - a, c - a).sum(axis=0), 0.0, atol=1e-12)
    assert not ours.is_closed(ours.Mesh(body.vertices, wall))


def test_a_surface_given_twice_is_refused() -> None:
    body = BODIES["box"]()
    assert not ours.is_closed(ours.Mesh(body.vertices, np.vstack([body.faces, body.faces])))


def test_one_triangle_facing_the_wrong_way_is_refused() -> None:
    body = BODIES["box"]()
    faces = body.faces.copy()
    faces[0] = faces[0][::-1]
    with pytest.raises(RangeError, match="face one way"):
        ours.mesh_volume(ours.Mesh(body.vertices, faces))


@pytest.mark.parametrize(
    ("name", "data"),
    [
        ("a.stl", b""),
        ("a.stl", b"solid nothing\nendsolid"),
        ("a.stl", b"\xff" * 200),
        ("a.obj", b"v 0 0 0\nf 1 2 3\n"),
        ("a.obj", b"v 0 0 nan\nv 1 0 0\nv 0 1 0\nf 1 2 3\n"),
        ("a.obj", b"f a b c\n"),
        ("a.off", b"COFF\n"),
        ("a.off", b""),
        ("a.off", b"OFF\n3 1 0\n0 0 0\n"),
        ("a.off", b"OFF\n3 1 0\n0 0 0\n1 0 0\n0 1 0\n3 0 1 -7\n"),
        ("a.ply", b"ply\nformat binary_little_endian 1.0\nend_header\n"),
        ("a.ply", b"not a ply"),
        ("a.step", b"x"),
        ("a", b"x"),
    ],
)
def test_a_broken_mesh_file_is_refused_by_name(name: str, data: bytes, tmp_path: Path) -> None:
    (tmp_path / name).write_bytes(data)
    with pytest.raises(RangeError, match=f'mesh "{name}"'):
        ours.read_mesh(tmp_path / name)


def test_a_missing_or_huge_mesh_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with pytest.raises(RangeError, match="cannot be read"):
        ours.read_mesh(tmp_path / "none.stl")
    path = written(BODIES["box"](), tmp_path, "obj")
    monkeypatch.setattr(ours, "LARGEST", 10)
    with pytest.raises(RangeError, match="larger than"):
        ours.read_mesh(path)
