"""One ASGI application: what stands before everything, the JSON API and the pages."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import date

from fastapi import FastAPI
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from checkface import __version__
from checkface.policy import Policy, PolicyError
from checkface.rules import check_policy
from checkface.rules.history import History
from checkface.web import api, pages
from checkface.web.desk import Desk
from checkface.web.guard import Guard
from checkface.web.refusal import Refused

_HTTP = {404: "Expected a page of this server, read another", 405: "Expected another method, read one not taken here"}


def application(
    policy: Policy | None = None,
    history: History | None = None,
    *,
    today: Callable[[], date] = date.today,
    names: Iterable[str] = (),
    unavailable: tuple[type[Exception], ...] = (),
) -> FastAPI:
    """The application for one house. Raises :class:`~checkface.policy.PolicyError` for a policy that may not be.

    *history* is asked and never written to; *unavailable* are its errors that mean that it cannot be asked now.
    *today* is the day of tenders that carry none; *names* are hosts, besides ``localhost`` and addresses, under which
    the server is reached.
    """
    policy = policy or Policy()
    if mistakes := check_policy(policy):
        raise PolicyError(mistakes)
    desk = Desk(policy, history, today, unavailable)
    app = FastAPI(docs_url=None, redoc_url=None, openapi_url=None, version=__version__)
    app.include_router(api.router(desk))
    site = pages.Pages(desk)
    app.router.routes.extend(site.routes())

    def refuse(request: Request, refused: Refused) -> Response:
        if request.scope["path"].split("/")[1:2] in (["v1"], ["healthz"]):
            return api.as_json({"problems": refused.problems}, refused.status)
        return site.refused(refused)

    async def on_refused(request: Request, error: Exception) -> Response:
        assert isinstance(error, Refused)
        return refuse(request, error)

    async def on_http(request: Request, error: Exception) -> Response:
        assert isinstance(error, HTTPException)
        answer = refuse(request, Refused(error.status_code, [_HTTP.get(error.status_code, "Expected another request")]))
        answer.headers.update(error.headers or {})
        return answer

    app.add_exception_handler(Refused, on_refused)
    app.add_exception_handler(HTTPException, on_http)
    app.add_middleware(Guard, names=tuple(names), policy=policy.digest, refuse=refuse)
    return app
