"""What the counter itself adds: the network and the authorization."""

from __future__ import annotations

from checkface.training.plants.work import Work, plants


@plants("network-down")
def network_is_down(work: Work) -> None:
    """Nothing can be converted."""
    work.counter["network"] = "down"


@plants("authorization-not-signed")
def authorization_refused(work: Work) -> None:
    """The customer wants the check to go through on paper."""
    work.counter["authorization_signed"] = False
