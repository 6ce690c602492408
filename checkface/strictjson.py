"""JSON from outside, read so that nothing in it is passed over.

RFC 8259 leaves open what a key means that comes twice in one object; most readers keep the last value and say nothing.
Here it is refused, as are ``NaN`` and ``Infinity``, which are no JSON.

>>> loads('{"micr": "1", "micr": "2"}')
Traceback (most recent call last):
checkface.strictjson.JsonError: Expected each key once, read 'micr' twice
>>> loads('{"micr": ')
Traceback (most recent call last):
checkface.strictjson.JsonError: Expected JSON, read text that breaks off or goes wrong at line 1, column 10
"""

import json
from collections import Counter
from typing import Any

from checkface.mistakes import quoted


class JsonError(ValueError):
    """Text that is no JSON, or of which one part hides another; one sentence without a full stop.

    ``more``: what stands first is JSON, and something else follows it.
    """

    more = False


def loads(text: str | bytes) -> Any:
    """The value that *text* (UTF-8 where it is bytes) holds. Raises :class:`JsonError`."""
    try:
        plain = text.decode("utf-8-sig") if isinstance(text, bytes) else text.removeprefix("\ufeff")
        return json.loads(plain, object_pairs_hook=_each_once, parse_constant=_no_number)
    except UnicodeDecodeError as error:
        raise JsonError(f"Expected JSON in UTF-8, read the byte 0x{error.object[error.start]:02X}") from None
    except json.JSONDecodeError as error:
        place = f"at line {error.lineno}, column {error.colno}"
        mistake = JsonError(f"Expected JSON, read text that breaks off or goes wrong {place}")
        mistake.more = error.msg == "Extra data"
        raise mistake from None
    except RecursionError:
        raise JsonError("Expected JSON, read lists or objects too deep within each other") from None
    except JsonError:
        raise
    except ValueError:
        raise JsonError("Expected JSON, read a number with too many digits") from None


def _each_once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) < len(pairs):
        twice, _ = Counter(key for key, _ in pairs).most_common(1)[0]
        raise JsonError(f"Expected each key once, read {quoted(twice)} twice")
    return found


def _no_number(word: str) -> Any:
    raise JsonError(f"Expected JSON, read {word}, which is no number of it")
