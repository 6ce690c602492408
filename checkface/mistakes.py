"""What is wrong with an object from outside, in one sentence: what was expected there and what sort of thing was read.

The model checker (pydantic) knows what is wrong; its own sentences speak of types and of itself. What was read is
described and never quoted, for it may be an account or a licence number in the wrong place.

>>> sentence({"type": "literal_error", "msg": "", "ctx": {"expected": "'up' or 'down'"}, "input": "45601122"})
"Expected 'up' or 'down', read other text"
>>> sentence({"type": "greater_than_equal", "msg": "", "ctx": {"ge": 1}, "input": 0})
'Expected at least 1, read less'
"""

import re
from collections.abc import Mapping
from typing import Any

from checkface.digits import MASK, SHOWN

#: What the patterns of the wire forms mean, each in words.
_PATTERNS = {
    "^[0-9]{9}$": "nine digits",
    "^[A-Z]{2}$": "the two capital letters of a state",
    "^([A-Z]{2})?$": "the two capital letters of a state",
}
#: Sorts of mistake by the checker's name for them, and what is said of each; ``{...}`` is filled from its context.
_WORDS = {
    "missing": "Expected this key, read none",
    "enum": "Expected {expected}, read {sort}",
    "literal_error": "Expected {expected}, read {sort}",
    "greater_than_equal": "Expected at least {ge}, read less",
    "less_than_equal": "Expected at most {le}, read more",
    "less_than": "Expected less than {lt}, read more",
    "bool_parsing": "Expected true or false, read {sort}",
    "bool_type": "Expected true or false, read {sort}",
    "int_from_float": "Expected a whole number, read one with a fraction",
    "int_parsing": "Expected a whole number, read {sort}",
    "int_parsing_size": "Expected a whole number, read one with too many digits",
    "int_type": "Expected a whole number, read {sort}",
    "string_type": "Expected text, read {sort}",
    "string_sub_type": "Expected text, read {sort}",
    "list_type": "Expected a list, read {sort}",
    "tuple_type": "Expected a list, read {sort}",
    "dict_type": "Expected keys and values, read {sort}",
    "mapping_type": "Expected keys and values, read {sort}",
    "model_type": "Expected keys and values, read {sort}",
    "model_attributes_type": "Expected keys and values, read {sort}",
}
_MEMBER = re.compile(r"<[A-Za-z.]+: ('[^']*')>")
_SORTS = {
    bool: "true or false", int: "a number", float: "a number", str: "other text", list: "a list", tuple: "a list",
    dict: "keys and values", type(None): "null",
}  # fmt: skip


def quoted(text: str) -> str:
    """*text* in quotes, shortened, its digits hidden where there are enough of them to be somebody's number.

    >>> quoted("fraktion"), quoted("T071098973T 45601122O")
    ("'fraktion'", "'T•••••••••T ••••••••O'")
    """
    few = sum(map(str.isdigit, text)) <= SHOWN["name"].most
    return repr("".join(c if few or not c.isdigit() else MASK for c in text[:40]))


def unforeseen(error: Exception) -> str:
    """A fault of the program itself as a sentence without a full stop.

    It names the type and the place alone: what the error says of itself may hold a number.
    """
    import traceback  # only here: a clean run need not load it

    last = traceback.extract_tb(error.__traceback__)[-1]
    return f"A fault in checkface itself, please report it: {type(error).__name__} in {last.name}, line {last.lineno}"


def sentence(problem: Mapping[str, Any]) -> str:
    """One mistake of ``pydantic.ValidationError.errors()``, with its input, as a sentence without a full stop."""
    kind, context = problem["type"], problem.get("ctx") or {}
    sort = _SORTS.get(type(problem.get("input")), "something else")
    if kind == "string_pattern_mismatch" and context.get("pattern") in _PATTERNS:
        return f"Expected {_PATTERNS[context['pattern']]}, read other text"
    if kind in _WORDS:
        # A choice among words is told in words, whatever type they are kept as.
        told = {name: _MEMBER.sub(r"\1", value) if isinstance(value, str) else value for name, value in context.items()}
        return _WORDS[kind].format(**told, sort=sort)
    return str(problem["msg"]).removeprefix("Value error, ")
