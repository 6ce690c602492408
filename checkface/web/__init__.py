"""The web: a JSON API for tills and pages for trainers, both without a memory.

Needs the extra ``web`` (FastAPI, Jinja2, uvicorn). :func:`application` makes an ASGI application of a house policy, a
history to ask if there is one, and the clock; ``checkface serve`` puts it on this machine's own address. Nothing that
is sent is stored, logged or shown again unmasked.

>>> from checkface import web
>>> web.application.__name__
'application'
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from checkface.ondemand import names_of

if TYPE_CHECKING:
    from checkface.web.app import application

__all__ = ["application"]

__getattr__ = names_of(__name__, {"application": "app"})
