"""``checkface schema``: the JSON Schema of what goes in and what comes out."""

from __future__ import annotations

import json
from typing import Annotated, Any, Literal

from checkface.cli import terminal
from checkface.cli.failure import DONE
from checkface.cli.options import Output, help_for

_DIALECT = "https://json-schema.org/draft/2020-12/schema"


def schema(
    name: Annotated[
        Literal["tender", "assessment", "policy"], help_for(None, "tender, assessment or policy.")
    ] = "tender",
    /,
    *,
    output: Output = None,
) -> int:
    """Print the JSON Schema of a tender, of an assessment, or of a policy."""
    with terminal.results(output) as out:
        print(json.dumps({"$schema": _DIALECT, **_schema(name)}, ensure_ascii=False, indent=2), file=out)
    return DONE


def _schema(name: str) -> dict[str, Any]:
    if name == "assessment":
        from checkface.report.wire import assessment_schema

        return assessment_schema()
    if name == "policy":
        from checkface.policy import Policy

        return Policy.model_json_schema()
    from checkface.tender import Tender

    return Tender.model_json_schema()
