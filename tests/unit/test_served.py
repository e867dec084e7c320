"""What the server gives besides answers: the built page, packed, and news of every change."""

from __future__ import annotations

import asyncio
import json
from pathlib import Path

import pytest
from fastapi.testclient import TestClient

from parbuckle.api import events
from parbuckle.api.app import make_app
from parbuckle.desk.keeping import edit, keep
from parbuckle.store.memory import MemoryStore
from parbuckle.store.watched import News, WatchedStore


def client(page: Path) -> TestClient:
    return TestClient(make_app(MemoryStore(), page=page), base_url="http://localhost")


@pytest.fixture
def page(tmp_path: Path) -> Path:
    (tmp_path / "page" / "assets").mkdir(parents=True)
    (tmp_path / "page" / "index.html").write_text("<!doctype html><title>page</title>" + " " * 4000, "utf-8")
    (tmp_path / "page" / "assets" / "app-1a2b.js").write_text("let a = 1\n", "utf-8")
    (tmp_path / "secret.txt").write_text("secret", "utf-8")
    return tmp_path / "page"


def test_the_page_is_given_packed_and_its_parts_are_kept_by_the_browser(page: Path) -> None:
    first = client(page).get("/")
    assert (first.status_code, first.headers["cache-control"]) == (200, "no-cache")
    assert first.headers["content-encoding"] == "gzip"
    assert first.headers["content-security-policy"].startswith("default-src 'self'")
    part = client(page).get("/assets/app-1a2b.js")
    assert (part.text, "immutable" in part.headers["cache-control"]) == ("let a = 1\n", True)
    assert part.headers["content-type"].startswith("text/javascript")


@pytest.mark.parametrize("path", ["../secret.txt", "%2e%2e/secret.txt", "assets", "x" * 3000, "a%00b", "//etc/passwd"])
def test_nothing_else_is_given(page: Path, path: str) -> None:
    answer = client(page).get(f"/{path}")
    assert answer.status_code == 404
    assert "secret" not in answer.text


def test_what_is_not_there_is_told_in_words(page: Path, tmp_path: Path) -> None:
    assert "Go back to /" in client(page).get("/nothing").text
    assert "not built" in client(tmp_path / "none").get("/").text
    assert client(page).get("/api/nothing").json()["error"]["what"]


def test_every_change_is_told_until_nobody_listens() -> None:
    store, told = WatchedStore(MemoryStore()), []
    end = store.listen(told.append)
    row = keep(store, "case", {"schema": 1}, "Ada")
    edit(store, row, [{"op": "set", "path": ["schema"], "value": 2}], "Ada")
    store.take_out("case", row.id)
    end()
    kit = keep(store, "kit", {"schema": 1}, "Ada")
    assert told == [{"case": row.id, "revision": number} for number in (1, 2, 0)]
    assert store.get("kit", kit.id).revision == 1


def test_the_stream_says_who_changed_and_ends_when_the_page_goes() -> None:
    async def read() -> list[str]:
        store = WatchedStore(MemoryStore())
        stream = events._stream(store)
        lines = [await anext(stream)]
        row = await asyncio.to_thread(keep, store, "case", {"schema": 1}, "Ada")
        lines.append(await anext(stream))
        await stream.aclose()  # type: ignore[attr-defined]
        assert not store._listeners
        assert json.loads(lines[1].removeprefix("data: ")) == {"case": row.id, "revision": 1}
        return lines

    assert asyncio.run(read())[0].startswith(":")


def test_a_quiet_stream_shows_that_it_lives(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(events, "_QUIET", 0.01)

    async def read() -> list[str]:
        waiting: asyncio.Queue[News] = asyncio.Queue()
        return [await events._next(waiting)]

    assert asyncio.run(read()) == [": quiet\n\n"]
