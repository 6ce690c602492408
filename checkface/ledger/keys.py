"""Tokens in place of numbers: what the ledger keeps of an account or a document.

A token is HMAC-SHA256 (RFC 2104, FIPS 198-1) of the number under a key that is kept outside the database. Equal
numbers give equal tokens, so the ledger can recognise what it has seen; without the key the numbers cannot be
worked out, although there are few enough of them to try all. Beside a token stand at most the last four characters.

>>> tokens = Tokens(bytes(32))
>>> tokens.item("011394776", "1234 567", "0042") == tokens.item("011394776", "1234567", "42")
True
>>> tokens.item("011394776", "1234567", "") is None
True
>>> last_four("1234 567"), last_four("1234567890")
('567', '7890')
"""

from __future__ import annotations

import hmac
import json
import os
import re
import secrets
from hashlib import sha256
from pathlib import Path
from typing import Final

from checkface import digits, files
from checkface.ledger.errors import LedgerError

KEY_BYTES: Final = 32
_NOT_PLAIN = re.compile(r"[^0-9A-Za-z]+")


def plain(number: str) -> str:
    """*number* without blanks, dashes and MICR symbols, letters upper case: how two readings of it are compared."""
    return _NOT_PLAIN.sub("", number).upper()


def plain_serial(serial: str) -> str:
    """The serial number without the leading zeros that some printers add to fill the field."""
    return plain(serial).lstrip("0")


def kept_serial(serial: str, own: tuple[str, ...] = ()) -> str:
    """:func:`plain_serial` as it is kept: with no more digits than a serial has, and without the numbers *own*."""
    return digits.hide(digits.hide_own(plain_serial(serial), own), "serial")


def last_four(number: str) -> str:
    """The last four characters, fewer of a number so short that four would give most of it away."""
    digits = plain(number)
    return digits[len(digits) - min(4, len(digits) // 2) :]


class Tokens:
    """Makes tokens under one key. The key never shows in ``repr``."""

    __slots__ = ("_key",)

    def __init__(self, key: bytes) -> None:
        if len(key) < KEY_BYTES:
            raise LedgerError(f"Expected a ledger key of at least {KEY_BYTES} bytes, read {len(key)}.")
        self._key = key

    def account(self, routing: str, account: str) -> bytes | None:
        """32 bytes that stand for the account at that bank; ``None`` when either number is missing."""
        bank, number = plain(routing), plain(account)
        return self._token("account", bank, number) if bank and number else None

    def item(self, routing: str, account: str, serial: str) -> bytes | None:
        """32 bytes that stand for one check; ``None`` when a number that would tell it from others is missing."""
        bank, number, which = plain(routing), plain(account), plain_serial(serial)
        return self._token("item", bank, number, which) if bank and number and which else None

    def document(self, number: str) -> bytes | None:
        """32 bytes that stand for one identification document; ``None`` when it has no number."""
        return self._token("document", found) if (found := plain(number)) else None

    def check(self) -> str:
        """A value from which a ledger knows its key again; it says nothing about the key."""
        return self._token("key").hex()

    def seal(self, *parts: object) -> bytes:
        """32 bytes that only this key can give for *parts*, which are numbers, texts, bytes, ``None`` or lists of them.

        A JSON list starts with a bracket, so that no seal is ever a token.
        """
        return hmac.digest(self._key, json.dumps(parts, default=bytes.hex).encode(), sha256)

    def _token(self, *parts: str) -> bytes:
        return hmac.digest(self._key, "\0".join(parts).encode(), sha256)


def read_key(path: Path) -> bytes | None:
    """The key in the file *path*, ``None`` if there is no such file. Raises :class:`LedgerError`."""
    try:
        with path.open("rb") as file:
            mode = files.loose(os.fstat(file.fileno()))
            text = file.read(1024).decode("ascii").strip()
    except FileNotFoundError:
        return None
    except (OSError, UnicodeDecodeError) as error:
        raise LedgerError(f"Key file {path}: expected a readable key, got {type(error).__name__}.") from error
    if mode is not None:
        wanted = "expected a file that others cannot use"
        raise LedgerError(f"Key file {path}: {wanted}, found mode {mode:03o}. If nobody has read it: chmod 600.")
    try:
        return bytes.fromhex(text)
    except ValueError as error:
        wanted = f"expected {2 * KEY_BYTES} hexadecimal digits"
        raise LedgerError(f"Key file {path}: {wanted}, read something else.") from error


def make_key(path: Path) -> bytes:
    """A new random key, written to *path* for its owner only; the key already there if another process was faster."""
    draft = path.with_name(f"{path.name}.{secrets.token_hex(8)}")
    try:
        descriptor = os.open(draft, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
        try:
            with os.fdopen(descriptor, "w", encoding="ascii") as file:
                draft.chmod(files.PRIVATE)
                file.write(secrets.token_hex(KEY_BYTES) + "\n")
                file.flush()
                os.fsync(file.fileno())
            # Linking publishes the whole file at once and never replaces a key that is already in use.
            os.link(draft, path)
        except FileExistsError:
            pass
        finally:
            draft.unlink()
    except OSError as error:
        raise LedgerError(f"Key file {path}: could not be written ({error.strerror}).") from error
    key = read_key(path)
    if key is None:
        raise LedgerError(f"Key file {path}: it vanished while it was being made.")
    return key
