"""What a house has decided for its own counters.

The defaults are a careful grocery counter: only personal checks are converted, what every lane can look at must
have been looked at (``[readings] required``), a difference between words and figures is not taken. Above $500.00, or
$50.00 more than the goods, a manager decides: figures of common practice, which no rule prescribes and every house sets
for itself. The defaults cannot know what the house is called (``names_house``): until a policy says so, no check is
converted without the question whether it is made out to us. A policy is written in TOML (see :meth:`Policy.parse`);
every key has a default. The effects of single rules can be changed under ``[effects]``; which changes are allowed is
decided by the force of each rule's authority (:mod:`checkface.rules`).

>>> Policy.parse('[limits]\\nhouse = "500.00"').limits.house
50000
>>> Policy.parse('[limits]\\nhose = "500.00"')
Traceback (most recent call last):
checkface.policy.PolicyError: Line 2, limits: Expected a known key, read 'hose'; the nearest known key is 'house'
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cached_property, lru_cache
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BeforeValidator, Field, ValidationError, model_validator

from checkface import identity, micr
from checkface.findings import Effect
from checkface.kinds import Kind, where
from checkface.mistakes import sentence
from checkface.stricttoml import TomlError, loads
from checkface.tender import Cents, Wire

#: The published network limit for conversion at the point of purchase, in cents. A house may only lower it.
NETWORK_LIMIT = 2_500_000

Days = Annotated[int, Field(ge=1, le=3650)]


#: What is said wherever a policy is reported that does not name the house.
UNNAMED = (
    "The policy does not name the house. No check is converted until the clerk says that it is made out to us. "
    "Set names under [payee]."
)


class PolicyError(ValueError):
    """A policy that cannot be put in force. ``mistakes`` has one sentence for each, with its line where known."""

    def __init__(self, mistakes: list[str]) -> None:
        super().__init__("\n".join(mistakes))
        self.mistakes = mistakes


def _may_convert(kind: Kind) -> Kind:
    if kind.row.convertible == "never":
        may = ", ".join(where(lambda row: row.convertible != "never"))
        raise ValueError(f"Expected a kind that a house may convert ({may}), read {str(kind)!r}")
    return kind


class Kinds(Wire):
    """``accepted`` kinds, those ``refused`` apart, may be taken at all; of those, ``convertible`` ones may become an
    electronic debit."""

    accepted: tuple[Kind, ...] = tuple(Kind)
    refused: tuple[Kind, ...] = ()
    convertible: tuple[Annotated[Kind, AfterValidator(_may_convert)], ...] = (Kind.PERSONAL,)

    @cached_property
    def taken(self) -> frozenset[Kind]:
        """The kinds that may be taken, for looking up."""
        return frozenset(self.accepted) - frozenset(self.refused)


def _within_the_network(cents: int | None) -> int:
    if cents is None or cents > NETWORK_LIMIT:
        raise ValueError("Expected at most $25,000.00, the network's limit, read " + ("more" if cents else "none"))
    return cents


class Limits(Wire):
    """Amounts in cents; on the wire dollars as text. ``None``, in TOML ``""``: the house has decided to set no limit.

    ``house`` is the largest check taken without a manager, ``cash_back`` the most paid out above the goods. Their
    defaults are common practice and the house's own to set.
    """

    conversion: Annotated[Cents, AfterValidator(_within_the_network)] = NETWORK_LIMIT
    house: Cents = 50_000
    cash_back: Cents = 5_000


class Dates(Wire):
    """Days after its date at which a check is overdue (a note). It is stale, and not taken, after six months by the
    calendar; ``stale_days`` is a stricter limit of the house's own, and more days than six months change nothing."""

    overdue_days: Days = 90
    stale_days: Days | None = None


#: Readings a policy may demand; ``amount`` is satisfied by the keyed amount, the figures or the words.
REQUIRABLE = (
    "micr", "micr_by", "network", "amount", "signature", "date", "payee", "figures", "words", "serial", "fraction",
    "drawer", "drawee", "legends", "endorsements", "alterations", "documents", "authorization", "on",
)  # fmt: skip


class Readings(Wire):
    """``required`` readings must have been looked at before anything is decided without a manager.

    ``least_confidence``: a reading whose own reader gives it less, from 0 to 1, is to be taken again.
    """

    required: tuple[Literal[REQUIRABLE], ...] = (  # type: ignore[valid-type]
        "micr", "micr_by", "network", "amount", "signature", "date", "payee", "on",
    )  # fmt: skip
    least_confidence: Annotated[float, Field(ge=0, le=1)] = 0.5


#: What follows where nobody looked: the check is kept, a manager decides, or the clerk looks and the plan says so.
Follows = Literal["keep", "refer", "clerk"]


class Unseen(Wire):
    """What follows where nobody looked at something that conversion rests on.

    The line, its capture, an amount, the signature and the network are never left to the clerk: without a look at them
    the check is kept.
    """

    payee: Follows = "keep"
    drawer: Follows = "keep"
    drawee: Follows = "keep"
    identification: Follows = "refer"
    wording: Follows = "keep"
    date: Follows = "keep"
    authorization: Follows = "keep"


class Payee(Wire):
    """Names under which the house takes checks. Empty: the house has not said, so no payee can be ruled out."""

    names: tuple[str, ...] = ()


class Routing(Wire):
    """``directory``: the routing numbers in use, as the house knows them. Empty: the house keeps none.

    ``layouts``: where single banks put serial and account, by routing number (:mod:`checkface.micr.layouts`).
    """

    directory: tuple[Annotated[str, Field(pattern=r"^[0-9]{9}$")], ...] = ()
    layouts: Annotated[Mapping[str, micr.Layout], BeforeValidator(micr.layouts_from)] = Field(default_factory=dict)

    @cached_property
    def numbers(self) -> frozenset[str]:
        """The directory for looking up."""
        return frozenset(self.directory)


def _reader_table(given: Any) -> micr.ReaderTable | None:
    return given if given is None or isinstance(given, micr.ReaderTable) else micr.reader_table(given)


class Conversion(Wire):
    """Whether the house converts at all (by store when ``stores`` is given)."""

    offered: bool = True
    stores: tuple[str, ...] = ()


class Identity(Wire):
    """What the house asks of the writer's identification.

    ``record_number``: note the number where the state allows it; where it does not, this changes nothing.
    """

    required: bool = True
    accepted_kinds: tuple[Literal[tuple(identity.KINDS)], ...] = tuple(  # type: ignore[valid-type]
        name for name, kind in identity.KINDS.items() if kind.photo
    )
    day_of_expiry_good: bool = True
    record_number: bool = False
    minimum_age: Annotated[int, Field(ge=0, le=120)] = 18


class Counter(Wire):
    """How a check goes in the reader: which ``face``, and which ``edge`` first. Empty: as its own label shows."""

    face: Literal["", "up", "down"] = ""
    edge: Literal["", "left", "right", "top", "bottom"] = ""


class History(Wire):
    """How much of one account the house takes within ``days``; ``None``: no limit."""

    days: Days = 7
    count: Annotated[int, Field(ge=1)] | None = 5
    amount: Cents = None
    accounts_per_document: Annotated[int, Field(ge=1)] = 3
    serial_gap: Annotated[int, Field(ge=1)] = 500


class Place(Wire):
    """Where a counter stands, as a receipt must say it. ``location`` is the merchant number or location id."""

    telephone: str = ""
    location: str = ""
    city: str = ""
    state: Annotated[str, Field(pattern="^([A-Z]{2})?$")] = ""


class House(Place):
    """Who the house is. ``stores`` holds what differs by store; ``return_fee`` is charged for a returned payment."""

    name: str = ""
    return_fee: Cents = None
    stores: dict[str, Place] = Field(default_factory=dict)


class Policy(Wire):
    """One house policy. ``state`` is where the counter stands, as letters (INCITS 38)."""

    name: str = "careful grocery counter"
    state: Annotated[str, Field(pattern="^([A-Z]{2})?$")] = ""
    kinds: Kinds = Field(default_factory=Kinds)
    limits: Limits = Field(default_factory=Limits)
    dates: Dates = Field(default_factory=Dates)
    readings: Readings = Field(default_factory=Readings)
    unseen: Unseen = Field(default_factory=Unseen)
    payee: Payee = Field(default_factory=Payee)
    routing: Routing = Field(default_factory=Routing)
    #: What the house's reader of magnetic ink writes, where no notation is its own (:mod:`checkface.micr.table`).
    reader: Annotated[micr.ReaderTable | None, BeforeValidator(_reader_table)] = None
    conversion: Conversion = Field(default_factory=Conversion)
    identity: Identity = Field(default_factory=Identity)
    counter: Counter = Field(default_factory=Counter)
    history: History = Field(default_factory=History)
    house: House = Field(default_factory=House)
    effects: dict[str, Effect] = Field(default_factory=dict)
    #: What is different where the counter stands in a state: any of the tables above, by letters.
    states: dict[Annotated[str, Field(pattern="^[A-Z]{2}$")], dict[str, Any]] = Field(default_factory=dict)

    @model_validator(mode="after")
    def _states_are_policies(self) -> Policy:
        for code, changes in self.states.items():
            if "states" in changes:
                raise ValueError(f"states.{code}: Expected no states within a state, read some")
            try:
                self._changed(changes)
            except ValidationError as error:
                first = error.errors(include_url=False)[0]
                place = ".".join(map(str, ("states", code, *first["loc"])))
                raise ValueError(f"{place}: {sentence(first)}") from error
        return self

    def _changed(self, changes: Mapping[str, Any]) -> Policy:
        return Policy.model_validate(_merged(self.model_dump(mode="json", exclude={"states"}), changes))

    @cached_property
    def by_state(self) -> dict[str, Policy]:
        """The policy in force in each state that this one speaks of."""
        return {code: self._changed(changes) for code, changes in self.states.items()}

    def at(self, store: str) -> Policy:
        """The policy in force at *store*: with what its state changes, if the policy says anything of that state."""
        return self.by_state.get(self.place(store).state, self) if self.states else self

    @classmethod
    def parse(cls, text: str) -> Policy:
        """The policy written in *text* (TOML). Raises :class:`PolicyError` naming every mistake with its line."""
        try:
            given = loads(text)
        except TomlError as error:
            raise PolicyError([str(error).replace("Expected TOML", "Expected a policy in TOML")]) from error
        try:
            return cls.model_validate(given)
        except ValidationError as error:
            raise PolicyError([_mistake(text, problem) for problem in error.errors(include_url=False)]) from error

    def place(self, store: str) -> Place:
        """Where *store* stands; what is not said of it is taken from the house, the state last from the policy."""
        return self.places.get(store) or self.places[None]

    @cached_property
    def places(self) -> dict[str | None, Place]:
        """Where each store stands that the policy knows, and under ``None`` the house itself."""
        house = self.house
        return {
            store: Place(
                telephone=own.telephone or house.telephone,
                location=own.location or house.location,
                city=own.city or house.city,
                state=own.state or house.state or self.state,
            )
            for store, own in ((None, house), *house.stores.items())
        }

    @property
    def names_house(self) -> bool:
        """Whether the policy says under which names the house takes checks."""
        return any(name.strip() for name in self.payee.names)

    @cached_property
    def digest(self) -> str:
        """SHA-256 of the policy in force, whichever way it was written down."""
        import hashlib

        return hashlib.sha256(self.model_dump_json().encode()).hexdigest()


def _merged(base: Mapping[str, Any], changes: Mapping[str, Any]) -> dict[str, Any]:
    """*base* with *changes* laid over it, table by table."""
    merged = dict(base)
    for key, value in changes.items():
        inner = merged.get(key)
        merged[key] = _merged(inner, value) if isinstance(inner, dict) and isinstance(value, dict) else value
    return merged


def _mistake(text: str, problem: Any) -> str:
    path = [str(part) for part in problem["loc"] if not isinstance(part, int)]
    message = sentence(problem)
    unknown = re.search(r"read '([^']*)'", message)
    line = line_of(text, [*path, unknown[1]] if unknown and "known key" in message else path)
    place = ".".join(path) or "policy"
    return f"Line {line}, {place}: {message}" if line else f"{place}: {message}"


def line_of(text: str, path: list[str]) -> int | None:
    """The line on which the TOML *path* is set in *text*, counted from 1, or its nearest table; else ``None``."""
    lines = _lines(text)
    return next(filter(None, (lines.get(tuple(path[:size])) for size in range(len(path), 0, -1))), None)


@lru_cache(maxsize=1)
def _lines(text: str) -> Mapping[tuple[str, ...], int]:
    """The first line of each table and key of the TOML *text*."""
    section: list[str] = []
    found: dict[tuple[str, ...], int] = {}
    for number, line in enumerate(text.splitlines(), 1):
        if head := re.match(r"\s*\[([^\]]+)\]", line):
            section = [part.strip(" \"'") for part in head[1].strip().split(".")]
            here = section
        elif key := re.match(r"\s*([\w.\"'-]+)\s*=", line):
            here = section + [part.strip("\"'") for part in key[1].split(".")]
        else:
            continue
        found.setdefault(tuple(here), number)
    return found
