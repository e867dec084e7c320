"""Whatever is sent, the server never fails: calls made up from its own description, and steps of drawn edits."""

from __future__ import annotations

import json

import schemathesis
from fastapi.testclient import TestClient
from hypothesis import HealthCheck, settings

from parbuckle.api.app import make_app
from parbuckle.desk.examples import keep_example
from parbuckle.desk.keeping import keep
from parbuckle.store.memory import MemoryStore

STORE = MemoryStore()
SMALL = keep(STORE, "case", {"schema": 1}, "Ada", kit=None)
LARGE = keep_example(STORE, "quarry-outboard", "Ada")
APP = make_app(STORE)
CLIENT = TestClient(APP, base_url="http://localhost", raise_server_exceptions=False)
KEYS = {"/api/kits": LARGE.kit, "/api/cases": SMALL.id}

JSON = {"content-type": "application/json"}

schema = schemathesis.openapi.from_dict(APP.openapi())


def sent(body: object) -> bytes:
    """Write a body as it was made up, bytes as they are."""
    if isinstance(body, schemathesis.core.NotSet):
        return b""
    return body if isinstance(body, bytes) else json.dumps(body, default=str).encode()


@schema.parametrize()
@settings(max_examples=8, deadline=None, suppress_health_check=list(HealthCheck), derandomize=True, database=None)
def test_no_call_makes_the_server_fail(case: schemathesis.Case) -> None:
    where = case.path
    if "key" in (case.path_parameters or {}):
        where = where.replace("{key}", next(key or "" for start, key in KEYS.items() if where.startswith(start)))
    for name, value in (case.path_parameters or {}).items():
        where = where.replace("{" + name + "}", str(value))
    if case.method == "DELETE":
        where += "x"  # the others still need the case
    answer = CLIENT.request(case.method, where, params=case.query, content=sent(case.body), headers=JSON)
    assert answer.status_code < 500, answer.text
