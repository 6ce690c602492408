"""A policy names each of its mistakes with the line it stands on."""

import pytest

import checkface as cf
from checkface.kinds import Kind
from checkface.policy import NETWORK_LIMIT, Policy, PolicyError
from checkface.rules import check_policy


def mistakes(text: str) -> list[str]:
    with pytest.raises(PolicyError) as caught:
        Policy.parse(text)
    return caught.value.mistakes


def test_defaults_are_a_careful_grocery_counter() -> None:
    policy = Policy()
    assert policy.kinds.convertible == ("personal",)
    assert policy.limits.conversion == NETWORK_LIMIT == 2_500_000
    assert (policy.dates.overdue_days, policy.dates.stale_days) == (90, None)
    # Common practice, not from any rule: no check is taken of any size, and no till pays out what is asked.
    assert (policy.limits.house, policy.limits.cash_back) == (50_000, 5_000)
    assert not policy.names_house


def test_a_house_may_decide_to_set_no_limit() -> None:
    limits = Policy.parse("[limits]\nhouse = ''\ncash_back = ''").limits
    assert (limits.house, limits.cash_back) == (None, None)


@pytest.mark.parametrize(("names", "named"), [("[]", False), ("[' ', '']", False), ("['Quillfeather Grocery']", True)])
def test_only_a_name_names_the_house(names: str, named: bool) -> None:
    assert Policy.parse(f"[payee]\nnames = {names}").names_house is named


def test_a_policy_is_read_from_toml() -> None:
    policy = Policy.parse(
        'name = "Lane rules"\nstate = "NY"\n[limits]\nhouse = "250.00"\n[effects]\naltered = "decline"\n'
    )
    assert (policy.name, policy.state, policy.limits.house) == ("Lane rules", "NY", 25000)
    assert policy.effects == {"altered": "decline"}


@pytest.mark.parametrize(
    ("text", "message"),
    [
        (
            "[limits]\n\nhose = '1.00'",
            "Line 3, limits: Expected a known key, read 'hose'; the nearest known key is 'house'",
        ),
        ("[dates]\nstale_days = 0", "Line 2, dates.stale_days: Expected at least 1, read less"),
        (
            "[limits]\nconversion = '25000.01'",
            "Line 2, limits.conversion: Expected at most $25,000.00, the network's limit, read more",
        ),
        (
            "[limits]\nconversion = ''",
            "Line 2, limits.conversion: Expected at most $25,000.00, the network's limit, read none",
        ),
        ("[kinds]\nconvertible = ['money-order']", "Line 2, kinds.convertible: "),
        (
            "[effects]\naltered = 'ignore'",
            "Line 2, effects.altered: Expected 'note', 'keep', 'refer' or 'decline', read other text",
        ),
        ("[limits\n", "Expected a policy in TOML, read: "),
        ("state = 'Texas'", "Line 1, state: Expected the two capital letters of a state, read other text"),
        ("[dates]\nstale_days = 1.5", "Line 2, dates.stale_days: Expected a whole number, read one with a fraction"),
        ("[routing]\ndirectory = ['12']", "Line 2, routing.directory: Expected nine digits, read other text"),
        ("[payee]\nnames = 'Ours'", "Line 2, payee.names: Expected a list, read other text"),
        ("limits = 5", "Line 1, limits: Expected keys and values, read a number"),
        ("[conversion]\noffered = 'perhaps'", "Line 2, conversion.offered: Expected true or false, read other text"),
    ],
)
def test_mistakes_have_their_line(text: str, message: str) -> None:
    assert mistakes(text)[0].startswith(message)


def test_every_mistake_is_named() -> None:
    assert len(mistakes("state = 'Texas'\n[dates]\nstale_days = 0\noverdue_days = 0\n")) == 3


@pytest.mark.parametrize("rule", ["micr-auxiliary-on-us", "treasury-past-year", "authorization-not-signed"])
def test_law_and_network_cannot_be_lowered(rule: str) -> None:
    policy = Policy(effects={rule: "note"})
    with pytest.raises(PolicyError, match=f"effects.{rule}: Expected (keep|decline) or stricter"):
        cf.assess({"face": {}}, policy)


def test_house_and_practice_can_be_lowered_and_anything_raised() -> None:
    cf.assess({"face": {}}, Policy(effects={"payee-not-house": "note", "micr-auxiliary-on-us": "decline"}))


def test_an_unknown_rule_names_the_nearest() -> None:
    with pytest.raises(PolicyError, match="the nearest rule is 'network-down'"):
        cf.assess({"face": {}}, Policy(effects={"network-donw": "keep"}))


def test_digest_is_of_what_is_in_force() -> None:
    assert Policy().digest == Policy.parse("[dates]\noverdue_days = 90").digest
    assert Policy().digest != Policy.parse("[dates]\nstale_days = 179").digest


STATES = """
state = "IL"
[limits]
house = "500.00"
[house.stores.9]
state = "NY"
[states.NY]
effects = { altered = "decline" }
limits = { cash_back = "20.00" }
"""


def test_a_state_changes_what_it_names_and_leaves_the_rest() -> None:
    policy = Policy.parse(STATES)
    assert policy.at("7") is policy
    there = policy.at("9")
    assert (there.limits.house, there.limits.cash_back, there.effects) == (50000, 2000, {"altered": "decline"})
    assert policy.limits.cash_back == 5000


def test_an_assessment_follows_the_state_of_its_store() -> None:
    face = {"alterations": True}
    policy = Policy.parse(STATES)
    effects = [
        next(
            f.effect
            for f in cf.assess({"face": face, "counter": {"store": store}}, policy).findings
            if f.rule == "altered"
        )
        for store in ("7", "9")
    ]
    assert effects == ["refer", "decline"]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        (
            "[states.NY.limits]\nhose = '1.00'",
            "states.NY.limits: Expected a known key, read 'hose'; the nearest known key is 'house'",
        ),
        ("[states.NY.states.NJ]\nname = 'x'", "states.NY: Expected no states within a state, read some"),
        ("[states.Ny]\nname = 'x'", "states.Ny"),
    ],
)
def test_a_wrong_state_is_named(text: str, message: str) -> None:
    assert message in mistakes(text)[0]


def test_restating_the_effect_of_the_book_changes_nothing() -> None:
    # The rule has two grades: a blank payee is a note, an illegible one is for a manager.
    illegible = {"face": {"payee": None}}
    for effects in ({}, {"payee-blank": "note"}):
        found = [f.effect for f in cf.assess(illegible, Policy(effects=effects)).findings if f.rule == "payee-blank"]
        assert found == ["refer"]


def test_effects_of_a_state_are_held_against_the_book_too() -> None:
    policy = Policy.parse('[states.NY.effects]\nnetwork-dwn = "refer"\nmicr-keyed = "note"\n')
    assert [mistake.partition(":")[0] for mistake in check_policy(policy)] == [
        "states.NY.effects.network-dwn",
        "states.NY.effects.micr-keyed",
    ]


def test_an_unknown_key_hides_no_other_mistake_of_its_table() -> None:
    text = "[dates]\nstale = 1\nstale_days = 0\noverdu_days = 3\n"
    assert [mistake.partition(":")[0] for mistake in mistakes(text)] == [
        "Line 2, dates",
        "Line 4, dates",
        "Line 3, dates.stale_days",
    ]


def test_a_house_may_name_the_kinds_it_refuses_in_place_of_those_it_takes() -> None:
    kinds = Policy.parse('[kinds]\nrefused = ["savings-bond"]').kinds
    assert set(Kind) - kinds.taken == {Kind.SAVINGS_BOND}
