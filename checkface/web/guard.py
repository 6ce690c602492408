"""What stands before every answer: whom the server listens to, and what every answer carries.

- *DNS rebinding*: a foreign page can have its own name point at this machine and then read our answers as its own. So
  the ``Host`` must be a name given at the start, ``localhost`` or an address, which no foreign page can be of.
- *Forgery across sites*: nothing is stored and nobody is logged in, so a forged request changes nothing, and its sender
  cannot read the answer (no CORS header is ever sent). Writing requests from other sites are refused all the same, by
  ``Sec-Fetch-Site`` or else by ``Origin``. (``Origin: null`` is what our own forms send, since no page says whence it
  was left.) Tills send neither and are not browsers.
- A fault of the program is answered with a fixed sentence, and logged by its type and place only.

Sources: RFC 9110 7.2 (Host), Fetch Standard (Origin), W3C Fetch Metadata, W3C Content Security Policy Level 3.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from ipaddress import ip_address
from typing import Final

from starlette.datastructures import Headers, MutableHeaders
from starlette.requests import ClientDisconnect, Request
from starlette.responses import Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from checkface.web.refusal import Refused, fault

#: Scripts, frames, fonts and everything from elsewhere are forbidden; a form goes to this server only.
SECURITY: Final = {
    "content-security-policy": (
        "default-src 'none'; style-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
    ),
    "x-content-type-options": "nosniff",
    "x-frame-options": "DENY",
    "referrer-policy": "no-referrer",
    "cache-control": "no-store",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "permissions-policy": "camera=(), geolocation=(), microphone=()",
}
_READING = frozenset({"GET", "HEAD", "OPTIONS"})

#: Turns a refusal into what the caller reads: a page or JSON.
Refuse = Callable[[Request, Refused], Response]


class Guard:
    """ASGI middleware. *names*: hosts under which the server is reached; *policy*: digest of the policy in force."""

    def __init__(self, app: ASGIApp, *, names: Iterable[str], policy: str, refuse: Refuse) -> None:
        self._app = app
        self._names = frozenset(name.lower() for name in names) | {"localhost"}
        self._headers = {**SECURITY, "checkface-policy": policy}
        self._refuse = refuse

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        started = False

        async def guarded(message: Message) -> None:
            nonlocal started
            if message["type"] == "http.response.start":
                started = True
                headers = MutableHeaders(scope=message)
                for name, value in self._headers.items():
                    headers[name] = value
            await send(message)

        try:
            if refused := self._refused(scope):
                await self._refuse(Request(scope), refused)(scope, receive, guarded)
            else:
                await self._app(scope, receive, guarded)
        except ClientDisconnect:
            return
        except Exception as error:
            refused = fault(error)
            if not started:
                await self._refuse(Request(scope), refused)(scope, receive, guarded)

    def _refused(self, scope: Scope) -> Refused | None:
        headers = Headers(scope=scope)
        hosts = headers.getlist("host")
        if len(hosts) != 1 or not self.is_ours(hosts[0]):
            return Refused(400, ["Expected a name of this server as Host, read another; --name adds one"])
        if scope["method"] in _READING or not _crosses(headers, hosts[0]):
            return None
        return Refused(403, ["Expected a request from this server's own pages, read one from another site"])

    def is_ours(self, host: str) -> bool:
        """Whether a ``Host`` header names this server: by a known name, or by any address."""
        name, address = _name_of(host.lower())
        return name in self._names or name.endswith(".localhost") or address


def _name_of(host: str) -> tuple[str, bool]:
    """The name in a ``Host`` header without its port, and whether it is an address."""
    name, port = host, ""
    if host.startswith("["):
        name, _, port = host[1:].partition("]")
        port = port.removeprefix(":")
    elif ":" in host:
        name, _, port = host.rpartition(":")
    if port and not (port.isascii() and port.isdigit()):
        return "", False
    try:
        ip_address(name)
    except ValueError:
        return name.removesuffix("."), False
    return name, True


def _crosses(headers: Headers, host: str) -> bool:
    """Whether a browser says that another site makes this request."""
    if headers.get("sec-fetch-site", "none") not in {"same-origin", "none"}:
        return True
    origin = headers.get("origin", "null")
    return origin != "null" and origin.partition("://")[2].lower() != host.lower()
