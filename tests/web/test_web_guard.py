"""What stands before every answer: hosts, other sites, headers, and faults of the program itself."""

from __future__ import annotations

import asyncio
import json
import logging
from datetime import date
from typing import Any

import pytest
from clean_tender import CLEAN
from starlette.requests import ClientDisconnect
from starlette.testclient import TestClient

import checkface as cf
from checkface.web import application, bodies
from checkface.web.guard import SECURITY, Guard
from checkface.web.refusal import LOG

HERE = "http://127.0.0.1:8000"
EVERYWHERE = (
    ("GET", "/"), ("GET", "/style.css"), ("GET", "/rules"), ("GET", "/nowhere"), ("POST", "/examine"),
    ("GET", "/examples/sound"), ("GET", "/v1/rules"), ("GET", "/healthz"), ("POST", "/v1/assess"), ("PUT", "/v1/assess"),
    ("HEAD", "/"), ("GET", "/v1/openapi.json"), ("GET", "/rules/"),
)  # fmt: skip


@pytest.mark.parametrize(("method", "path"), EVERYWHERE)
def test_every_answer_carries_the_same_protection(client: TestClient, method: str, path: str) -> None:
    for headers in ({}, {"host": "evil.example"}, {"sec-fetch-site": "cross-site"}):
        answer = client.request(method, path, headers=headers, follow_redirects=False)
        assert {name: answer.headers[name] for name in SECURITY} == SECURITY
        assert answer.headers.get_list("content-security-policy") == [SECURITY["content-security-policy"]]
        assert "set-cookie" not in answer.headers
        assert "access-control-allow-origin" not in answer.headers


def test_the_policy_for_content_allows_no_script_and_nothing_from_elsewhere() -> None:
    assert SECURITY["content-security-policy"].split("; ") == [
        "default-src 'none'",
        "style-src 'self'",
        "form-action 'self'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
    ]


@pytest.mark.parametrize(
    ("host", "ours"),
    [
        ("127.0.0.1", True), ("127.0.0.1:8000", True), ("localhost:1", True), ("LOCALHOST", True), ("[::1]:8000", True),
        ("[::1]", True), ("192.168.1.20:8000", True), ("till.store.lan:8000", True), ("till.store.lan.", True),
        ("a.localhost", True), ("evil.example", False), ("evil.example:8000", False), ("localhost.evil.example", False),
        ("127.0.0.1.evil.example", False), ("127.0.0.1@evil.example", False), ("127.0.0.1:8000:evil", False), ("", False),
        ("evil.example:127.0.0.1", False), ("[evil.example]", False), ("localhost:80@evil.example", False),
        ("notlocalhost", False), ("127.0.0.1:٣", False), ("127.1", False), ("2130706433", False),
    ],
)  # fmt: skip
def test_a_host_is_a_name_of_ours_or_an_address(host: str, ours: bool) -> None:
    async def never(*_: Any) -> None: ...

    guard = Guard(never, names=("Till.Store.LAN",), policy="", refuse=lambda *_: pytest.fail("not asked"))
    assert guard.is_ours(host) is ours


def test_another_host_gets_no_answer(client: TestClient) -> None:
    for path, host in (("/v1/rules", "evil.example"), ("/", "evil.example"), ("/", "[evil"), ("/v1", "a b/c?d#e")):
        answer = client.get(path, headers={"host": host})
        assert answer.status_code == 400
        assert "Expected a name of this server as Host, read another; --name adds one" in answer.text
        assert "amounts-disagree" not in answer.text


def test_two_hosts_or_none_get_no_answer() -> None:
    app = application()

    def status(headers: list[tuple[bytes, bytes]]) -> int:
        sent: list[Any] = []

        async def receive() -> Any:
            return {"type": "http.request", "body": b"", "more_body": False}

        async def send(message: Any) -> None:
            sent.append(message)

        scope = {
            "type": "http", "method": "GET", "path": "/healthz", "raw_path": b"/healthz", "root_path": "", "scheme": "http",
            "query_string": b"", "headers": headers, "http_version": "1.1",
        }  # fmt: skip
        asyncio.run(app(scope, receive, send))
        return int(sent[0]["status"])

    assert status([(b"host", b"localhost")]) == 200
    assert status([]) == status([(b"host", b"localhost"), (b"host", b"evil.example")]) == 400


@pytest.mark.parametrize(
    ("headers", "status"),
    [
        ({}, 200),
        ({"sec-fetch-site": "same-origin", "origin": "null"}, 200),
        ({"sec-fetch-site": "none"}, 200),
        ({"sec-fetch-site": "none", "origin": "http://evil.example"}, 403),
        ({"origin": HERE}, 200),
        ({"origin": "null"}, 200),
        ({"sec-fetch-site": "cross-site"}, 403),
        ({"sec-fetch-site": "same-site", "origin": HERE}, 403),
        ({"sec-fetch-site": "cross-site", "origin": HERE}, 403),
        ({"origin": "http://evil.example"}, 403),
        ({"origin": "http://127.0.0.1:8001"}, 403),
        ({"origin": "http://127.0.0.1:8000.evil.example"}, 403),
    ],
)
def test_a_request_that_another_site_makes_is_refused(client: TestClient, headers: dict[str, str], status: int) -> None:
    assert client.post("/examine", data={"face.payee": "x"}, headers=headers).status_code == status
    assert client.post("/v1/assess", json=CLEAN, headers=headers).status_code == status
    assert client.get("/rules", headers=headers).status_code == 200


def test_a_fault_of_the_program_tells_nothing_of_what_was_sent(caplog: pytest.LogCaptureFixture) -> None:
    class Broken:
        def __getattr__(self, name: str) -> Any:
            raise RuntimeError(f"45601122 {name}")

    client = TestClient(application(history=Broken(), today=lambda: date(2026, 11, 25)), base_url=HERE)
    with caplog.at_level(logging.DEBUG):
        answer = client.post("/v1/assess", json=CLEAN)
        page = client.post("/examine", data={"face.micr": CLEAN["face"]["micr"]})
        lines = client.post(
            "/v1/assess/batch",
            content=json.dumps(CLEAN) + '\n{"face": {}}\n{"face": 45601122}',
            headers={"content-type": "application/jsonl"},
        )
    assert answer.status_code == page.status_code == 500
    assert answer.json() == {"problems": ["A fault in checkface itself, please report it; nothing was judged"]}
    assert "please report it" in page.text
    assert "content-security-policy" in page.headers
    ours = [record for record in caplog.records if record.name == LOG.name]
    fault = "A fault in checkface itself, please report it: RuntimeError in __getattr__, line "
    assert [record.getMessage().rstrip("0123456789") for record in ours] == [fault] * 3
    assert "45601122" not in caplog.text + answer.text + page.text + lines.text
    first, second, third = map(json.loads, lines.text.splitlines())
    assert first == {"line": 1} | answer.json()  # and it costs no other line
    assert "assessment" in second
    assert third["problems"] == ["face: Expected keys and values, read a number"]


def test_a_ledger_that_does_not_answer_is_said_and_nothing_is_judged(caplog: pytest.LogCaptureFixture) -> None:
    class GoneError(Exception):
        pass

    class Gone:
        def item_seen(self, *_: str) -> None:
            raise GoneError("Ledger till.ledger: another program holds it locked.")

    app = application(history=Gone(), unavailable=(GoneError,))  # type: ignore[arg-type]
    client = TestClient(app, base_url=HERE)
    problem = "Expected the ledger to answer, read nothing from it; nothing was judged"
    answer = client.post("/v1/assess", json=CLEAN)
    assert (answer.status_code, answer.json()) == (503, {"problems": [problem]})
    lines = client.post("/v1/assess/batch", json=CLEAN, headers={"content-type": "application/jsonl"})
    assert lines.json() == {"line": 1, "problems": [problem]}
    page = client.post("/examine", data={"face.micr": CLEAN["face"]["micr"], "face.serial": "1043"})
    assert page.status_code == 503
    assert problem in page.text
    assert "The ledger could not be asked: Ledger till.ledger: another program holds it locked." in caplog.text


def test_the_past_is_asked() -> None:
    class Past:
        def item_seen(self, *_: str) -> cf.rules.history.Seen:  # type: ignore[name-defined]
            from checkface.rules.history import Seen

            return Seen(date(2026, 11, 20), "converted")

        def is_listed(self, *_: str) -> bool:
            return True

        def account_past(self, *_: Any) -> Any:
            from checkface.rules.history import AccountPast

            return AccountPast(0, 0, None, ())

        def accounts_of_document(self, *_: str) -> int:
            return 0

    client = TestClient(application(history=Past()), base_url=HERE)
    rules = {finding["rule"] for finding in client.post("/v1/assess", json=CLEAN).json()["findings"]}
    assert {"item-seen-before", "account-on-house-list"} <= rules


def test_a_caller_who_hangs_up_is_no_fault(caplog: pytest.LogCaptureFixture) -> None:
    async def gone(*_: Any) -> None:
        raise ClientDisconnect

    guard = Guard(gone, names=(), policy="", refuse=lambda *_: pytest.fail("nobody is there to be told"))
    scope = {"type": "http", "method": "GET", "path": "/", "headers": [(b"host", b"localhost")]}

    async def nothing(*_: Any) -> Any: ...

    asyncio.run(guard(scope, nothing, nothing))
    assert not caplog.records


@pytest.mark.parametrize("path", ["/v1/assess", "/v1/assess/batch", "/examine"])
def test_a_body_that_never_ends_is_not_waited_for(path: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(bodies, "SECONDS", 0.05)
    kind = {"/v1/assess": "application/json", "/examine": "application/x-www-form-urlencoded"}
    headers = [(b"host", b"localhost"), (b"content-type", kind.get(path, "application/jsonl").encode())]
    scope: dict[str, Any] = {
        "type": "http", "asgi": {"version": "3.0"}, "http_version": "1.1", "method": "POST", "path": path,
        "raw_path": path.encode(), "query_string": b"", "root_path": "", "scheme": "http", "headers": headers,
        "client": ("127.0.0.1", 1), "server": ("localhost", 80),
    }  # fmt: skip
    sent: list[Any] = []
    parts = iter([{"type": "http.request", "body": b"{", "more_body": True}])

    async def receive() -> Any:
        part = next(parts, None)
        if part is None:
            await asyncio.sleep(5)
        return part

    async def send(message: Any) -> None:
        sent.append(message)

    async def run() -> None:
        await asyncio.wait_for(application()(scope, receive, send), 3)

    asyncio.run(run())
    assert sent[0]["status"] == 408
    assert b"within 0.05 seconds" in sent[1]["body"]
