"""A file is written whole or stays as it was, for its owner only, and never through a link."""

from __future__ import annotations

import doctest
import os
import signal
import stat
import subprocess
import sys
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest

from checkface import files
from checkface.files import add_to, make_private, write_whole


@pytest.fixture(params=[0o000, 0o022, 0o277], ids=oct)
def umask(request: pytest.FixtureRequest) -> Iterator[int]:
    before = os.umask(request.param)
    yield request.param
    os.umask(before)


def mode(path: Path) -> int:
    return stat.S_IMODE(path.stat().st_mode)


def test_examples() -> None:
    result = doctest.testmod(files)
    assert result.attempted
    assert not result.failed


def test_what_is_written_is_the_owners_whatever_the_umask(tmp_path: Path, umask: int) -> None:
    path = tmp_path / "out"
    with write_whole(path) as out:
        out.write("⑆ and \r\n")
        assert [mode(each) for each in tmp_path.iterdir()] == [0o600]
    assert path.read_bytes() == "⑆ and \r\n".encode()
    assert mode(path) == 0o600
    assert make_private(tmp_path / "new") is None
    assert mode(tmp_path / "new") == 0o600
    for _ in range(2):
        with add_to(tmp_path / "log") as out:
            out.write("⑆\n")
    assert ((tmp_path / "log").read_text("utf-8"), mode(tmp_path / "log")) == ("⑆\n" * 2, 0o600)


def test_a_file_open_to_others_is_closed_by_what_replaces_it(tmp_path: Path) -> None:
    path = tmp_path / "out"
    path.write_text("earlier")
    path.chmod(0o666)
    with write_whole(path) as out:
        out.write("later")
    assert (path.read_text(), mode(path)) == ("later", 0o600)


@pytest.mark.parametrize("fault", [ValueError, KeyboardInterrupt, SystemExit, GeneratorExit])
def test_whatever_goes_wrong_the_earlier_file_stays(tmp_path: Path, fault: type[BaseException]) -> None:
    path = tmp_path / "out"
    path.write_text("earlier")

    def spoil() -> None:
        with write_whole(path) as out:
            out.write("half" * 10_000)
            out.flush()
            raise fault

    with pytest.raises(fault):
        spoil()
    assert [each.name for each in tmp_path.iterdir()] == ["out"]
    assert path.read_text() == "earlier"


@pytest.mark.parametrize("failing", ["fsync", "replace"])
def test_a_disk_that_fails_at_the_end_leaves_the_earlier_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, failing: str
) -> None:
    path = tmp_path / "out"
    path.write_text("earlier")

    def fail(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(*((os, "fsync", fail) if failing == "fsync" else (Path, "replace", fail)))
    with pytest.raises(OSError, match="No space"), write_whole(path) as out:
        out.write("later")
    assert [each.name for each in tmp_path.iterdir()] == ["out"]
    assert path.read_text() == "earlier"


def test_a_process_killed_while_it_writes_leaves_the_earlier_file(tmp_path: Path) -> None:
    path = tmp_path / "out"
    path.write_text("earlier")
    program = (
        "import pathlib, sys, time; from checkface.files import write_whole\n"
        "with write_whole(pathlib.Path(sys.argv[1])) as out:\n"
        "    out.write('half'); out.flush(); print('writing', flush=True); time.sleep(60)"
    )
    with subprocess.Popen([sys.executable, "-c", program, str(path)], stdout=subprocess.PIPE) as process:
        assert process.stdout is not None
        assert process.stdout.readline() == b"writing\n"
        process.send_signal(signal.SIGKILL)
        process.wait(20)
    assert path.read_text() == "earlier"


@pytest.mark.parametrize("there", [True, False], ids=["to a file", "to nothing"])
def test_no_link_is_written_through(tmp_path: Path, there: bool) -> None:
    target, link = tmp_path / "target", tmp_path / "link"
    if there:
        target.write_text("earlier")
        target.chmod(0o644)
    link.symlink_to(target)
    with pytest.raises(OSError, match="symbolic link"), write_whole(link) as out:
        out.write("later")
    with pytest.raises(OSError, match="symbolic link"):
        make_private(link)
    with pytest.raises(OSError, match="symbolic link"):
        add_to(link)
    assert target.exists() == there
    if there:
        assert (target.read_text(), mode(target)) == ("earlier", 0o644)


def test_a_link_put_there_meanwhile_is_replaced_and_its_target_left(tmp_path: Path) -> None:
    target, path = tmp_path / "target", tmp_path / "out"
    target.write_text("earlier")
    with write_whole(path) as out:
        path.symlink_to(target)
        out.write("later")
    assert (target.read_text(), path.read_text(), path.is_symlink()) == ("earlier", "later", False)


def test_a_folder_and_a_place_that_is_not_there_are_refused(tmp_path: Path) -> None:
    with pytest.raises(OSError, match="a folder"), write_whole(tmp_path):
        pass
    with pytest.raises(FileNotFoundError), write_whole(tmp_path / "none" / "out"):
        pass


def test_a_name_as_long_as_names_can_be(tmp_path: Path) -> None:
    path = tmp_path / ("n" * 255)
    with write_whole(path) as out:
        out.write("x")
    assert path.read_text() == "x"


def test_pipes_and_devices_are_written_as_they_are(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    read: list[str] = []
    reader = threading.Thread(target=lambda: read.append(pipe.read_text()))
    reader.start()
    with write_whole(pipe) as out:
        out.write("through")
    reader.join(20)
    assert read == ["through"]
    assert stat.S_ISFIFO(pipe.stat().st_mode)
    with write_whole(Path(os.devnull)) as out:
        out.write("gone")
    assert stat.S_ISCHR(Path(os.devnull).stat().st_mode)


@pytest.mark.parametrize(("found", "becomes"), [(0o644, 0o600), (0o660, 0o600), (0o440, 0o400), (0o604, 0o600)])
def test_a_file_open_to_others_is_closed_and_its_mode_told(tmp_path: Path, found: int, becomes: int) -> None:
    path = tmp_path / "kept"
    path.write_text("kept")
    path.chmod(found)
    assert make_private(path) == found
    assert (mode(path), path.read_text()) == (becomes, "kept")
    assert make_private(path) is None
