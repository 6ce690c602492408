"""``checkface serve``: the pages for trainers and the JSON API for tills, on this machine."""

from __future__ import annotations

import errno
import signal
import socket
from collections.abc import Iterator
from contextlib import contextmanager
from ipaddress import ip_address
from pathlib import Path
from typing import Annotated

from cyclopts import Group, Parameter

from checkface.cli import ledgers, options
from checkface.cli.failure import DONE, INTERRUPTED, Failure
from checkface.cli.options import DirectoryFile, PolicyFile, help_for
from checkface.cli.terminal import warn

_WHERE = Group("Where", sort_key=1)
_HOUSE = Group("The house", sort_key=2)
#: What the extra brings.
_EXTRA = frozenset({"fastapi", "starlette", "jinja2", "markupsafe", "uvicorn"})
#: Seconds that answers under way are waited for when the server ends.
_LAST = 3
#: Connections at once; a chain's lanes ask one by one, and more would hold bodies in memory.
_MOST = 200

_Host = Annotated[str, help_for(_WHERE, "Address or name to listen on; 127.0.0.1 is this machine alone.", "HOST")]
_Port = Annotated[int, help_for(_WHERE, "Port to listen on; 0 takes any that is free.", "PORT")]
_Name = Annotated[
    list[str] | None,
    help_for(_WHERE, "Another name under which the server is reached, such as till.store.lan; once for each.", "NAME"),
]
_Ledger = Annotated[
    str | None, help_for(_HOUSE, "Ask this ledger what passed the counter before; nothing is written to it.", "LEDGER")
]
_Key = Annotated[Path | None, help_for(_HOUSE, "File of the ledger's key; beside it if not given.", "FILE")]


def serve(
    *,
    host: _Host = "127.0.0.1",
    port: _Port = 8000,
    name: _Name = None,
    policy: Annotated[PolicyFile, Parameter(group=_HOUSE)] = None,
    directory: Annotated[DirectoryFile, Parameter(group=_HOUSE)] = None,
    ledger: _Ledger = None,
    key: _Key = None,
) -> int:
    """Serve pages for trainers and a JSON API for tills.

    Nothing that is sent is stored or logged, and numbers are masked in every answer. There is no password and no
    encryption: for anyone but this machine's own users, put a server that has both in front. Ctrl-C ends it.

      checkface serve
      checkface serve --port 0 --policy house.toml
    """
    try:
        import uvicorn

        from checkface.web.app import application
    except ImportError as error:
        if error.name not in _EXTRA:
            raise
        raise Failure("Expected the web extra to be installed: pip install 'checkface[web]'.") from None
    house, _ = options.with_directory(options.policy(policy), directory)
    with ledgers.asked(ledger, key) as history, _listening(host, port) as listener:
        app = application(house, history, names=(host, *(name or ())), unavailable=_unavailable(ledger))
        address, bound = listener.getsockname()[:2]
        shown = f"[{address}]" if ":" in address else address
        # The usual ends of a server, told as its keeper expects them: one by the system is seen as such.
        # Whoever is told that it serves may end it at once, so this comes first.
        for number in (signal.SIGTERM, getattr(signal, "SIGHUP", signal.SIGTERM)):
            if signal.getsignal(number) is signal.default_int_handler:
                signal.signal(number, signal.SIG_DFL)
        warn(f"Serving on http://{shown}:{bound}/ until Ctrl-C.")
        if not ip_address(address).is_loopback:
            warn("Everyone who can reach this address can use it: there is no password, and nothing is encrypted.")
        # Neither accesses nor faults are logged by uvicorn: an address or a message might hold a reading.
        config = uvicorn.Config(
            app, http="h11", ws="none", loop="asyncio", lifespan="off", log_config=None, log_level="critical",
            access_log=False, server_header=False, proxy_headers=False, timeout_graceful_shutdown=_LAST,
            limit_concurrency=_MOST,
        )  # fmt: skip
        try:
            uvicorn.Server(config).run(sockets=[listener])
        except KeyboardInterrupt:
            return INTERRUPTED
    return DONE


def _unavailable(ledger: str | None) -> tuple[type[Exception], ...]:
    if ledger is None:
        return ()
    from checkface.ledger import LedgerError

    return (LedgerError,)


@contextmanager
def _listening(host: str, port: int) -> Iterator[socket.socket]:
    """A socket that listens on *host* and *port*. Raises :class:`Failure`."""
    if not 0 <= port <= 65535:
        raise Failure(f"Expected a port from 0 to 65535 after --port, read {port}.")
    try:
        family, kind, protocol, _, address = socket.getaddrinfo(
            host, port, type=socket.SOCK_STREAM, flags=socket.AI_PASSIVE
        )[0]
    except (OSError, UnicodeError):
        raise Failure("Expected an address or a name of this machine after --host, read another.") from None
    with socket.socket(family, kind, protocol) as listener:
        try:
            # A port of a server that has just ended may be taken again at once.
            listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            listener.bind(address)
            listener.listen()
        except OSError as error:
            reason = "one in use" if error.errno == errno.EADDRINUSE else f"one that cannot be had: {error.strerror}"
            raise Failure(f"Expected a free port, read {reason}. --port 0 takes any that is free.") from None
        yield listener
