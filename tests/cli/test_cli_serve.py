"""``checkface serve``: a real process that is asked over the loopback interface and stopped; and its mistakes."""

from __future__ import annotations

import json
import os
import re
import select
import signal
import socket
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from http.client import HTTPConnection
from pathlib import Path
from urllib.error import HTTPError
from urllib.request import Request, urlopen

import pytest
from clean_tender import CLEAN

import checkface as cf
from checkface.cli import main

SECONDS = 30


@contextmanager
def _serving(*words: str) -> Iterator[tuple[subprocess.Popen[bytes], str]]:
    """The process and its address, once it says that it serves."""
    command = [sys.executable, "-m", "checkface", "serve", "--port", "0", *words]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, bufsize=0) as run:
        try:
            assert run.stderr is not None
            assert select.select([run.stderr], [], [], SECONDS)[0], "nothing said"
            said = run.stderr.readline().decode()
            found = re.fullmatch(r"Serving on (http://\S+:[1-9]\d*)/ until Ctrl-C\.\n", said)
            assert found, said
            yield run, found[1]
        finally:
            run.kill()


def _ended(run: subprocess.Popen[bytes]) -> tuple[int, str, str]:
    run.send_signal(signal.SIGINT)
    out, said = run.communicate(timeout=SECONDS)
    return run.returncode, out.decode(), said.decode()


def test_it_serves_answers_and_ends() -> None:
    with _serving() as (run, address):
        assert address.startswith("http://127.0.0.1:")
        sent = Request(f"{address}/v1/assess", json.dumps(CLEAN).encode(), {"content-type": "application/json"})
        with urlopen(sent, timeout=SECONDS) as answer:
            assert json.load(answer) == cf.assess(CLEAN).model_dump()
            assert answer.headers["checkface-policy"] == cf.Policy().digest
            assert "server" not in answer.headers
        with urlopen(f"{address}/?example=sound&account=45601122", timeout=SECONDS) as answer:
            assert b"Examine a check" in answer.read()
        with pytest.raises(HTTPError) as refused:
            urlopen(
                Request(f"{address}/v1/assess", b'{"face": 45601122', {"content-type": "application/json"}),
                timeout=SECONDS,
            )
        with refused.value as answer:
            assert answer.code == 400
        code, out, said = _ended(run)
    assert (code, out, said) == (130, "", "")  # neither what was asked nor what was sent is logged


def test_a_body_too_long_is_answered_before_the_line_is_cut() -> None:
    with _serving() as (run, address):
        connection = HTTPConnection(address.removeprefix("http://"), timeout=SECONDS)
        connection.request("POST", "/v1/assess", b" " * (1 << 21), {"content-type": "application/json"})
        answer = connection.getresponse()
        assert (answer.status, json.load(answer)) == (413, {"problems": ["Expected at most 65,536 bytes, read more"]})
        connection.close()
        assert _ended(run)[0] == 130


def test_the_house_s_policy_is_the_one_in_force(tmp_path: Path) -> None:
    house = tmp_path / "house.toml"
    house.write_text('[limits]\nhouse = "40.00"\n', encoding="utf-8")
    with _serving("--policy", str(house)) as (_, address), urlopen(f"{address}/healthz", timeout=SECONDS) as answer:
        assert json.load(answer)["made_with"]["policy"] == cf.Policy.parse(house.read_text()).digest


def test_a_ledger_is_asked_and_not_written_to(tmp_path: Path, named: Path) -> None:
    pytest.importorskip("sqlalchemy")
    where = tmp_path / "till.ledger"
    listing = ["--routing", "071098973", "--account", "45601122", "--ledger", str(where)]
    assert main(["history", "add-unpaid", *listing]) == 0
    before = where.read_bytes()
    with _serving("--ledger", str(where), "--policy", str(named)) as (run, address):
        sent = Request(f"{address}/v1/assess", json.dumps(CLEAN).encode(), {"content-type": "application/json"})
        for _ in range(2):
            with urlopen(sent, timeout=SECONDS) as answer:
                rules = {finding["rule"] for finding in json.load(answer)["findings"]}
            assert rules == {"account-on-house-list"}
        assert _ended(run)[0] == 130
    assert where.read_bytes() == before


def test_elsewhere_than_on_this_machine_it_warns() -> None:
    with _serving("--host", "0.0.0.0") as (run, address):
        port = address.rpartition(":")[2]
        with urlopen(f"http://127.0.0.1:{port}/healthz", timeout=SECONDS) as answer:
            assert answer.status == 200
        code, _, said = _ended(run)
    assert (code, said) == (
        130, "Everyone who can reach this address can use it: there is no password, and nothing is encrypted.\n",
    )  # fmt: skip


def test_a_further_name_is_answered_and_no_other() -> None:
    with _serving("--name", "till.store.lan") as (_, address):
        here = address.removeprefix("http://")
        for name, status in (("till.store.lan", 200), ("till.store.lan:1", 200), ("evil.example", 400)):
            connection = HTTPConnection(here, timeout=SECONDS)
            connection.request("GET", "/healthz", headers={"Host": name})
            assert connection.getresponse().status == status
            connection.close()


def test_it_ends_when_told_to_by_the_system() -> None:
    with _serving() as (run, _):
        run.send_signal(signal.SIGTERM)
        _, said = run.communicate(timeout=SECONDS)
        assert (run.returncode, said) == (-signal.SIGTERM, b"")


def test_a_port_in_use_is_one_sentence(capsys: pytest.CaptureFixture[str]) -> None:
    with socket.create_server(("127.0.0.1", 0)) as taken:
        assert main(["serve", "--port", str(taken.getsockname()[1])]) == 2
    said = "checkface: Expected a free port, read one in use. --port 0 takes any that is free.\n"
    assert capsys.readouterr() == ("", said)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--port", "65536"], "Expected a port from 0 to 65535 after --port, read 65536."),
        (["--port", "-1"], "Expected a port from 0 to 65535 after --port, read -1."),
        (["--host", ".."], "Expected an address or a name of this machine after --host, read another."),
        (["--ledger", "no/such.ledger"], "no/such.ledger: Expected a ledger, read no such file."),
        (["--policy", "no/such.toml"], "no/such.toml: Expected a policy to read, read: No such file or directory."),
    ],
)
def test_mistakes(words: list[str], said: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["serve", *words]) == 2
    assert capsys.readouterr() == ("", f"checkface: {said}\n")


@pytest.mark.parametrize("package", ["fastapi", "jinja2", "uvicorn"])
def test_without_its_extra_it_names_it(package: str) -> None:
    script = f"import sys; sys.modules[{package!r}] = None; from checkface.cli import main; sys.exit(main(['serve']))"
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=False, timeout=SECONDS)
    said = "checkface: Expected the web extra to be installed: pip install 'checkface[web]'.\n"
    assert (done.returncode, done.stdout, done.stderr) == (2, "", said)


def test_nothing_else_loads_the_web() -> None:
    script = (
        "import sys; from checkface.cli import main; import checkface, checkface.web; main(['rules']);"
        "print(*sorted({'fastapi', 'starlette', 'jinja2', 'uvicorn'} & set(sys.modules)), file=sys.stderr)"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True, env=os.environ)
    assert done.stderr == "\n"
