"""Files this program writes: whole or not at all, for their owner only, and never through a symbolic link.

A result is written beside its destination and renamed when it is whole and on the disk (POSIX.1-2017, ``rename``:
the old file or the new one, nothing between). Whatever stops the writing, the earlier file stays as it was.

>>> import pathlib, tempfile
>>> folder = tempfile.TemporaryDirectory()
>>> answers = pathlib.Path(folder.name) / "answers.csv"
>>> with write_whole(answers) as file:
...     _ = file.write("id,answer\\n")
>>> answers.read_text(), oct(answers.stat().st_mode & 0o777)
('id,answer\\n', '0o600')
>>> with write_whole(answers) as file:
...     _ = file.write("half a")
...     raise ValueError("the tape broke")
Traceback (most recent call last):
ValueError: the tape broke
>>> [path.name for path in answers.parent.iterdir()], answers.read_text()
(['answers.csv'], 'id,answer\\n')
>>> link = pathlib.Path(folder.name) / "link.csv"; link.symlink_to(answers)
>>> with write_whole(link) as file:
...     pass
Traceback (most recent call last):
OSError: [Errno 40] a symbolic link, which is never written through
>>> folder.cleanup()
"""

import errno
import os
import stat
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Final, TextIO

#: What a file of ours allows: its owner reads and writes, nobody else does anything.
PRIVATE: Final = 0o600
_OTHERS: Final = stat.S_IRWXG | stat.S_IRWXO
_NO_LINK: Final = getattr(os, "O_NOFOLLOW", 0)
_LINK: Final = "a symbolic link, which is never written through"


@contextmanager
def write_whole(path: Path) -> Iterator[TextIO]:
    """A UTF-8 stream (its ``buffer`` for bytes) whose text becomes the file *path* once the block ends well.

    A pipe or a device keeps nothing and is written as it is. Raises :class:`OSError` with a short ``strerror``.
    """
    if is_stream(path):
        with path.open("w", encoding="utf-8", newline="") as stream:
            yield stream
        return
    if path.is_symlink():
        raise OSError(errno.ELOOP, _LINK)
    if path.is_dir():
        raise OSError(errno.EISDIR, "a folder")
    draft = path.with_name(f".{os.urandom(8).hex()}.part")  # a name of its own length, whatever that of *path*
    stream = os.fdopen(_made(draft, os.O_WRONLY | os.O_EXCL), "w", encoding="utf-8", newline="")
    try:
        with stream:
            yield stream
            stream.flush()
            os.fsync(stream.fileno())
        draft.replace(path)
    except BaseException:
        with suppress(OSError):  # what went wrong first is what is told
            draft.unlink()
        raise
    _settle(path.parent)


def add_to(path: Path) -> TextIO:
    """A UTF-8 stream that adds to the file *path*, made if it is new. Raises :class:`OSError`."""
    return os.fdopen(_made(path, os.O_WRONLY | os.O_APPEND), "a", encoding="utf-8", newline="")


def make_private(path: Path) -> int | None:
    """See to it that *path* is a file for its owner only, made if it is new.

    An earlier file that others could use is closed to them, and the mode it had is returned. Raises :class:`OSError`
    for a symbolic link, for a file of somebody else's that others can use, and for what cannot be opened or made.
    """
    descriptor = _made(path, os.O_RDONLY)
    try:
        mode = loose(os.fstat(descriptor))
        if mode is not None:
            os.fchmod(descriptor, mode & ~_OTHERS)
        return mode
    finally:
        os.close(descriptor)


def loose(found: os.stat_result) -> int | None:
    """The mode of a file that others than its owner can use, where the system keeps modes at all; else ``None``."""
    mode = stat.S_IMODE(found.st_mode)
    return mode if os.name == "posix" and stat.S_ISREG(found.st_mode) and mode & _OTHERS else None


def _made(path: Path, flags: int) -> int:
    """A descriptor of *path*, which is made if it is new: with mode 0600 whatever the umask takes away."""
    is_new = not path.exists()
    try:
        descriptor = os.open(path, flags | os.O_CREAT | _NO_LINK, PRIVATE)
    except OSError as error:
        if error.errno == errno.ELOOP:
            raise OSError(errno.ELOOP, _LINK) from None
        raise
    if is_new and os.name == "posix":
        os.fchmod(descriptor, PRIVATE)
    return descriptor


def is_stream(path: Path) -> bool:
    """Whether *path* is a pipe or a device, which keeps nothing."""
    try:
        mode = path.stat().st_mode
    except OSError:
        return False
    return stat.S_ISFIFO(mode) or stat.S_ISCHR(mode)


def _settle(folder: Path) -> None:
    """Have the disk keep the new name, too."""
    if os.name != "posix":
        return
    descriptor = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)
