"""The server: a case from the first answers to its files, errors in words, and a gate that keeps others out."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from fastapi.testclient import TestClient

from parbuckle.api.app import make_app
from parbuckle.desk.examples import DEMO, keep_demo
from parbuckle.store.memory import MemoryStore

WHO = {"who": "Ada"}


@pytest.fixture(scope="module")
def store() -> MemoryStore:
    kept = MemoryStore()
    keep_demo(kept)
    return kept


@pytest.fixture(scope="module")
def client(store: MemoryStore) -> Iterator[TestClient]:
    with TestClient(make_app(store), base_url="http://localhost") as ready:
        yield ready


@pytest.fixture
def quarry(client: TestClient) -> dict[str, Any]:
    """A case of its own for each test."""
    made = client.post("/api/cases", json={"example": "quarry-outboard", **WHO})
    assert made.status_code == 201
    body: dict[str, Any] = made.json()
    return body


def edit(client: TestClient, case: dict[str, Any], *changes: dict[str, Any], **more: object) -> Any:
    body = {"base": case["revision"], "changes": list(changes), **WHO, **more}
    return client.post(f"/api/cases/{case['id']}/edits", json=body)


def put(path: list[str | int], value: object) -> dict[str, Any]:
    return {"op": "set", "path": path, "value": value}


def test_the_demo_is_there_and_is_kept_once(client: TestClient, store: MemoryStore) -> None:
    assert len(keep_demo(store)) >= len(DEMO)
    assert {"Outboard off the pump-house pontoon", "Exercise: raise the drum"} <= {
        row["title"] for row in client.get("/api/cases").json()["cases"]
    }


def test_the_answer_belongs_to_exactly_these_revisions(client: TestClient, quarry: dict[str, Any]) -> None:
    before = client.get(f"/api/cases/{quarry['id']}/plan").json()
    assert (before["revision"], before["kit_revision"], before["faults"]) == (1, 1, [])
    assert before["plan"]["verdict"]["line"] == "No stop found in what you told me."
    changed = edit(client, quarry, put(["site", "depth"], "17 m")).json()
    after = client.get(f"/api/cases/{quarry['id']}/plan").json()
    assert changed["revision"] == after["revision"] == 2
    assert after["plan"]["site"]["depth_m"]["likely"] == pytest.approx(17.0)
    assert changed["shown"]["site.depth"]["imperial"].startswith("55.8")


def test_a_wrong_value_is_kept_and_takes_the_plan_away(client: TestClient, quarry: dict[str, Any]) -> None:
    changed = edit(client, quarry, put(["site", "depth"], "16 parsecs")).json()
    assert changed["document"]["site"]["depth"] == "16 parsecs"
    told = client.get(f"/api/cases/{quarry['id']}/plan").json()
    assert told["plan"] is None
    assert [fault["key"] for fault in told["faults"]] == ["site.depth"]
    for view in ("tonight", "files/brief.pdf", "numbers/load.wet_weight_kg"):
        refused = client.get(f"/api/cases/{quarry['id']}/{view}")
        assert refused.status_code == 422, view
        assert refused.json()["error"]["what"]


def test_what_if_saves_nothing(client: TestClient, quarry: dict[str, Any]) -> None:
    body = {"changes": [put(["site", "depth"], "20 m")]}
    tried = client.post(f"/api/cases/{quarry['id']}/what-if", json=body).json()
    assert tried["plan"]["site"]["depth_m"]["likely"] == pytest.approx(20.0)
    assert client.get(f"/api/cases/{quarry['id']}").json()["revision"] == 1


def test_a_clash_says_who_and_what_stands_there(client: TestClient, quarry: dict[str, Any]) -> None:
    edit(client, quarry, put(["site", "depth"], "15 m"), who="Lio")
    refused = edit(client, quarry, put(["site", "depth"], "17 m"))
    assert refused.status_code == 409
    assert refused.json()["error"] | {"at": "", "what": ""} == {
        "by": "Lio",
        "theirs": "15 m",
        "revision": 2,
        "path": ["site", "depth"],
        "at": "",
        "what": "",
    }
    assert edit(client, quarry, put(["site", "bottom"], "sand")).status_code == 200


def test_undo_redo_history_and_going_back(client: TestClient, quarry: dict[str, Any]) -> None:
    place = f"/api/cases/{quarry['id']}"
    now = edit(client, quarry, put(["site", "depth"], "17 m")).json()
    assert now["undo_what"] == "site.depth"
    now = client.post(f"{place}/undo", json={"base": now["revision"], **WHO}).json()
    assert (now["document"], now["redo_what"]) == (quarry["document"], "site.depth")
    now = client.post(f"{place}/redo", json={"base": now["revision"], **WHO}).json()
    assert now["document"]["site"]["depth"] == "17 m"
    now = client.post(f"{place}/restore", json={"base": now["revision"], "revision": 1, **WHO}).json()
    assert now["document"] == quarry["document"]
    said = [row["what"] for row in client.get(f"{place}/history").json()["revisions"]]
    assert said[0] == "went back to revision 1"
    assert len(said) == 5
    assert client.post(f"{place}/undo", json={"base": 1, **WHO}).status_code == 409


def test_variants_stand_side_by_side_and_one_is_chosen(client: TestClient, quarry: dict[str, Any]) -> None:
    place = f"/api/cases/{quarry['id']}"
    other = client.post(f"{place}/variants", json={"name": "deeper", **WHO}).json()
    edit(client, other, put(["site", "depth"], "20 m"))
    rows = client.get(f"{place}/compare", params={"with": other["id"]}).json()["rows"]
    assert any(row["differs"] for row in rows)
    chosen = client.post(f"{place}/choose", json={"base": 1, "variant": other["id"], **WHO}).json()
    assert chosen["document"]["site"]["depth"] == "20 m"
    assert client.post(f"{place}/undo", json={"base": 2, **WHO}).json()["document"] == quarry["document"]


def test_ten_questions_make_a_case_with_a_first_answer(client: TestClient) -> None:
    asked = client.get("/api/questions").json()["questions"]
    assert len(asked) == 10
    made = client.post("/api/cases", json={"answers": {}, **WHO}).json()
    told = client.get(f"/api/cases/{made['id']}/plan").json()
    assert told["plan"] is not None
    assert told["missing"]


def test_tonight_numbers_files_and_form(client: TestClient, quarry: dict[str, Any]) -> None:
    place = f"/api/cases/{quarry['id']}"
    assert len(client.get(f"{place}/tonight").json()["questions"]) == 20
    assert client.get(f"{place}/numbers/load.wet_weight_kg").json()["inputs"]
    names = {row["name"]: row["why_not"] for row in client.get(f"{place}/files").json()["files"]}
    assert names["brief.pdf"] is None
    paper = client.get(f"{place}/files/brief.pdf", params={"paper": "us-letter"})
    assert (paper.content[:5], paper.headers["content-type"]) == (b"%PDF-", "application/pdf")
    assert client.get(f"{place}/files/other.pdf").status_code == 422
    assert {"case", "kit"} <= client.get("/api/form").json().keys()


def test_a_case_goes_out_and_comes_in(client: TestClient, quarry: dict[str, Any]) -> None:
    texts = {name: client.get(f"/api/cases/{quarry['id']}/files/{name}.toml").text for name in ("case", "kit")}
    back = client.post("/api/import", json=texts | WHO)
    assert back.status_code == 201
    assert back.json()["document"]["object"] == quarry["document"]["object"]
    refused = client.post("/api/import", json={"case": "this is = = no", **WHO})
    assert refused.status_code == 422
    assert refused.json()["error"]["line"] == 1


def test_a_kit_is_typed_once_and_its_edit_is_seen_by_its_cases(client: TestClient, quarry: dict[str, Any]) -> None:
    kit = client.get(f"/api/kits/{quarry['kit_id']}").json()
    assert kit["faults"] == []
    body = {"base": kit["revision"], "changes": [put(["bag", 0, "capacity"], "26 l")], **WHO}
    assert client.post(f"/api/kits/{kit['id']}/edits", json=body).json()["revision"] == kit["revision"] + 1
    told = client.get(f"/api/cases/{quarry['id']}/plan").json()
    assert told["kit_revision"] == kit["revision"] + 1
    back = client.post(f"/api/kits/{kit['id']}/undo", json={"base": kit["revision"] + 1, **WHO}).json()
    assert back["document"] == kit["document"]
    assert len(client.get(f"/api/kits/{kit['id']}/history").json()["revisions"]) == 3
    assert kit["id"] in [row["id"] for row in client.get("/api/kits").json()["kits"]]


def test_a_case_taken_out_is_gone(client: TestClient, quarry: dict[str, Any]) -> None:
    place = f"/api/cases/{quarry['id']}"
    assert client.delete(place).status_code == 204
    assert client.get(place).status_code == 404
    assert client.get(f"{place}/plan").json()["error"]["what"].startswith("no case with the id")


@pytest.mark.parametrize(
    ("headers", "status"),
    [
        ({"host": "evil.example"}, 421),
        ({"host": "localhost.evil.example"}, 421),
        ({"host": ""}, 421),
        ({"host": "[::1"}, 421),
        ({"origin": "http://evil.example"}, 403),
        ({"origin": "null"}, 403),
        ({"content-type": "text/plain"}, 415),
        ({"content-type": "application/x-www-form-urlencoded"}, 415),
        ({"host": "127.0.0.1:8000", "origin": "http://localhost:8000"}, 201),
    ],
)
def test_the_gate(client: TestClient, headers: dict[str, str], status: int) -> None:
    body = b'{"who": "Ada", "answers": {}}'
    answer = client.post("/api/cases", content=body, headers={"content-type": "application/json"} | headers)
    assert answer.status_code == status
    assert answer.headers["content-security-policy"].startswith("default-src 'self'")
    assert answer.headers["x-content-type-options"] == "nosniff"


def test_a_body_that_is_too_long_or_does_not_say_is_refused(client: TestClient) -> None:
    told = {"content-type": "application/json"}
    assert client.post("/api/cases", content=b"x" * 4_000_001, headers=told).status_code == 413
    assert client.post("/api/cases", content=iter([b"{}"]), headers=told).status_code == 411


@pytest.mark.parametrize(
    "body",
    [
        {},
        {"base": 1, "who": "", "changes": [put(["a"], 1)]},
        {"base": 0, "who": "Ada", "changes": [put(["a"], 1)]},
        {"base": 9, "who": "Ada", "changes": [put(["a"], 1)]},
        {"base": 1, "who": "Ada", "changes": []},
        {"base": 1, "who": "Ada", "changes": [{"op": "erase", "path": ["a"]}]},
        {"base": 1, "who": "Ada", "changes": [{"op": "set", "path": ["a"]}]},
        {"base": 1, "who": "Ada", "changes": [{"op": "remove", "path": ["nowhere"]}]},
        {"base": 1, "who": "Ada", "changes": [put(["a"], 1)], "more": 1},
    ],
)
def test_a_broken_edit_is_refused_in_words(client: TestClient, quarry: dict[str, Any], body: dict[str, Any]) -> None:
    answer = client.post(f"/api/cases/{quarry['id']}/edits", json=body)
    assert answer.status_code == 422
    assert answer.json()["error"]["what"]
    assert client.get(f"/api/cases/{quarry['id']}").json()["revision"] == 1


@pytest.mark.parametrize(
    "value", ["NaN", "Infinity", "1e999", '"\\ud800"', '"a\\u0000b"', "[" * 5000 + "]" * 5000, "[" * 900 + "]" * 900]
)
def test_what_no_store_can_keep_is_refused(client: TestClient, quarry: dict[str, Any], value: str) -> None:
    body = '{"base": 1, "who": "Ada", "changes": [{"op": "set", "path": ["case", "title"], "value": ' + value + "}]}"
    told = {"content-type": "application/json"}
    answer = client.post(f"/api/cases/{quarry['id']}/edits", content=body.encode(), headers=told)
    assert answer.status_code in (400, 422)
    assert client.get(f"/api/cases/{quarry['id']}").json()["revision"] == 1


def test_a_kit_is_typed_and_taken(client: TestClient) -> None:
    case = client.post("/api/cases", json={"answers": {"what": "anchor"}, **WHO}).json()
    kit = client.post("/api/kits", json={"document": {"schema": 1, "team": {"name": "Club"}}, **WHO})
    assert (kit.status_code, kit.json()["title"], kit.json()["faults"]) == (201, "Club", [])
    body = {"base": case["revision"], "kit": kit.json()["id"], **WHO}
    taken = client.post(f"/api/cases/{case['id']}/kit", json=body).json()
    assert (taken["kit_id"], taken["revision"]) == (kit.json()["id"], 2)
    assert client.post(f"/api/cases/{case['id']}/kit", json=body).status_code == 409
    none = client.post(f"/api/cases/{case['id']}/kit", json={**body, "base": 2, "kit": "nobody"})
    assert none.status_code == 404
    assert client.get(f"/api/cases/{case['id']}/history").json()["revisions"][0]["what"] == "took the kit Club"


def test_the_history_marks_what_was_taken_back(client: TestClient, quarry: dict[str, Any]) -> None:
    one = edit(client, quarry, put(["site", "depth"], "17 m")).json()
    two = edit(client, one, put(["site", "depth"], "18 m")).json()
    back = client.post(f"/api/cases/{quarry['id']}/undo", json={"base": two["revision"], **WHO}).json()
    place = f"/api/cases/{quarry['id']}/history"
    rows = client.get(place).json()["revisions"]
    assert [(row["number"], row["undone"], row["back"]) for row in rows] == [
        (4, False, "undo"), (3, True, ""), (2, False, ""), (1, False, ""),
    ]  # fmt: skip
    client.post(f"/api/cases/{quarry['id']}/redo", json={"base": back["revision"], **WHO})
    assert not any(row["undone"] for row in client.get(place).json()["revisions"])
