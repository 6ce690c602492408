"""Which papers are which checks: what is certain is what every largest pairing there is has in common."""

from __future__ import annotations

import itertools
from collections.abc import Iterable

from hypothesis import given
from hypothesis import strategies as st

from checkface.audit.across.pairing import pair


@given(st.data())
def test_the_pairing_is_what_every_largest_pairing_has_in_common(data: st.DataObject) -> None:
    nodes = range(data.draw(st.integers(0, 3))), range(10, 10 + data.draw(st.integers(0, 3)))
    papers, checks = ({node: data.draw(st.integers(1, 2)) for node in some} for some in nodes)
    grades = {
        paper: data.draw(st.dictionaries(st.sampled_from(nodes[1]), st.integers(2, 7))) if checks else {}
        for paper in papers
    }
    result = pair(grades, papers, checks)
    every_check = [(check, n) for check, number in checks.items() for n in range(number)]
    options = [
        [None, *(one for one in every_check if one[0] in grades[paper])]
        for paper, number in papers.items()
        for _ in range(number)
    ]
    every = []
    for choice in itertools.product(*options):
        taken = {check for check in choice if check is not None}
        if len(taken) == sum(check is not None for check in choice):
            every.append(taken)
    most = max(map(len, every))
    largest = [taken for taken in every if len(taken) == most]
    always = set.intersection(*largest)

    def expanded(group: Iterable[int]) -> set[tuple[int, int]]:
        return {one for one in every_check if one[0] in set(group)}

    assert expanded(result.paired) == always
    for check, own in result.paired.items():
        assert sum(own.values()) == checks[check]
        assert all(check in grades[paper] for paper in own)
    assert set().union(*(expanded(group) for group, _ in result.groups)) == set(every_check) - always
    for group, missing in result.groups:
        assert {len(expanded(group) - taken) for taken in largest} == {missing}
        assert 0 < missing <= len(expanded(group))
        # A group is as small as it can be: its members depend on one another.
        for size in range(1, len(group)):
            for part in itertools.combinations(group, size):
                assert len({len(expanded(part) - taken) for taken in largest}) > 1
    assert sum(result.left.values()) == len(options) - most
    assert all(0 < number <= papers[paper] for paper, number in result.left.items())
