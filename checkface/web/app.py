"""One ASGI application: what stands before everything, the JSON API and the pages."""

from __future__ import annotations

from fastapi import FastAPI


def application() -> FastAPI:
    """The application."""
    return FastAPI(docs_url=None, redoc_url=None)
