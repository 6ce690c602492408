"""A proxy before PostgreSQL that lets a commit through and keeps its answer to itself.

It knows as much of the protocol as it needs (PostgreSQL documentation, "Message Formats"): a simple query is ``Q``, its
length, its text and a zero byte.
"""

from __future__ import annotations

import select
import socket
import threading
from types import TracebackType
from typing import Self


class DroppingProxy:
    """Listens on loopback and passes everything on, but after :meth:`arm` drops the answer to so many commits.

    ``shut`` refuses new connections from then on, as a network that is down does.
    """

    def __init__(self, host: str, port: int) -> None:
        self.server = host, port
        self.drops = self.dropped = 0
        self.shut_after = False
        self.is_shut = False
        self.listener = socket.create_server(("127.0.0.1", 0))
        self.port = self.listener.getsockname()[1]
        self.thread = threading.Thread(target=self._accept, daemon=True)
        self.thread.start()

    def arm(self, commits: int = 1, *, shut: bool = False) -> None:
        self.drops, self.shut_after = commits, shut

    def __enter__(self) -> Self:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        self.listener.close()

    def _accept(self) -> None:
        while True:
            try:
                client, _ = self.listener.accept()
            except OSError:
                return
            if self.is_shut:
                client.close()
            else:
                threading.Thread(target=self._serve, args=(client,), daemon=True).start()

    def _serve(self, client: socket.socket) -> None:
        with client, socket.create_connection(self.server) as server:
            has_written = is_commit = False  # what prepares a connection is committed, too, and is let be
            while True:
                ready, _, _ = select.select([client, server], [], [], 30)
                if not ready:
                    return
                for side in ready:
                    data = side.recv(65536)
                    if not data:
                        return
                    if side is client:
                        has_written |= b"INSERT" in data or b"UPDATE" in data
                        is_commit = has_written and data.startswith(b"Q") and b"COMMIT\0" in data and self.drops > 0
                        server.sendall(data)
                    elif is_commit:
                        # The server has committed and says so; the lane never hears of it.
                        self.drops -= 1
                        self.dropped += 1
                        self.is_shut = self.shut_after
                        return
                    else:
                        client.sendall(data)
