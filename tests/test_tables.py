"""The table loader refuses what nobody can trace."""

import pytest

from checkface import tables

HEAD = '# [source]\n# authority = "a"\n# edition = "e"\n# taken = "2026-11-24"\n# how = "h"\n# check = "c"\n'


def test_every_shipped_table_has_a_complete_source() -> None:
    assert tables.names()
    for name in tables.names():
        source = tables.load(name).source
        assert all(len(part) > 3 for part in (source.authority, source.edition, source.how, source.check)), name
        assert source.taken.startswith("20"), name


def test_csv_head_is_the_source_and_the_rest_are_rows() -> None:
    table = tables.parse("t", ".csv", (HEAD + "a,b\n1,2\n").encode())
    assert [dict(row) for row in table.rows] == [{"a": "1", "b": "2"}]
    assert table.source.authority == "a"


@pytest.mark.parametrize(
    ("suffix", "content", "message"),
    [
        (".csv", b"a,b\n1,2\n", "Table t: expected a [source] with authority, edition, taken, how, check, read none."),
        (
            ".toml",
            b'[source]\nauthority = "a"\nedition = " "\ntaken = "x"\nhow = "h"\n',
            "Table t: expected a [source] with authority, edition, taken, how, check, read it without edition, check.",
        ),
        (".csv", (HEAD + "a,b\n1\n").encode(), "Table t, row 1: expected 2 cells, read another number."),
        (".csv", (HEAD + "a,b\n1,2,3\n").encode(), "Table t, row 1: expected 2 cells, read another number."),
    ],
)
def test_refused(suffix: str, content: bytes, message: str) -> None:
    with pytest.raises(tables.TableError) as caught:
        tables.parse("t", suffix, content)
    assert str(caught.value) == message


@pytest.mark.parametrize("content", [b"\xff\xfe", b"[source", b"# [source\na,b\n"])
def test_broken_files_are_table_errors(content: bytes) -> None:
    for suffix in (".csv", ".toml"):
        with pytest.raises(tables.TableError, match="Table t"):
            tables.parse("t", suffix, content)


def test_unknown_name_lists_the_known_ones() -> None:
    with pytest.raises(tables.TableError, match="authorities"):
        tables.load("no-such-table")


def test_digest_changes_with_the_bytes() -> None:
    one, two = (tables.parse("t", ".csv", (HEAD + f"a\n{n}\n").encode()) for n in (1, 2))
    assert one.digest != two.digest
    assert len(tables.digest()) == 64
