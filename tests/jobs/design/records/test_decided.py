"""A decision covers the finding it was made on and nothing else."""

from __future__ import annotations

from dataclasses import replace

from jobs.design.records.findings import Finding, decided
from jobs.models import Decision


def test_an_open_stop_is_not_hidden_by_a_decided_one() -> None:
    """Of two stops with one code in one place the open one stands, whichever comes first."""
    one = Finding(code="length-unknown", severity="stop", section="power", where="P01", value="out")
    other = replace(one, value="back")
    decision = Decision(fingerprint=one.fingerprint)
    for found in ([one, other], [other, one]):
        (left,) = decided(found, [decision])
        assert left.is_open
        assert left.value == "back"
