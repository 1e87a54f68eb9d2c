"""A decision covers the finding it was made on and nothing else."""

from __future__ import annotations

from dataclasses import replace

from jobs.design.records.about import About
from jobs.design.records.findings import Finding, decided
from jobs.models import Decision

RUN = About("run", "7")
OUT = Finding(
    code="length-unknown", severity="stop", section="power", about=RUN.at("out"), name="P01"
)


def test_an_open_stop_is_not_hidden_by_a_decided_one() -> None:
    """Of two stops with one code on one run both are shown, and the other stays open."""
    other = replace(OUT, about=RUN.at("return"))
    decision = Decision(fingerprint=OUT.fingerprint)
    for found in ([OUT, other], [other, OUT]):
        left, settled = decided(found, [decision])
        assert left.is_open
        assert left.about == other.about
        assert not settled.is_open


def test_a_name_is_in_no_key() -> None:
    """Another name, and words made of other names, change neither the key nor the fingerprint."""
    renamed = replace(OUT, name="P99", value_said="Boot")
    assert (renamed.key, renamed.fingerprint) == (OUT.key, OUT.fingerprint)


def test_every_part_of_what_it_is_about_is_in_its_key() -> None:
    """Another code, kind, key or place is another finding; other figures ask again."""
    others = [
        replace(OUT, code="conductor-unknown"),
        *(
            replace(OUT, about=one)
            for one in (RUN, About("box", "7", "out"), About("run", "8", "out"))
        ),
        replace(OUT, about=About("run", "7o", "ut")),
    ]
    assert len({one.key for one in (OUT, *others)}) == len(others) + 1
    changed = [replace(OUT, value=1.0), replace(OUT, limit=1.0), replace(OUT, also=(RUN,))]
    assert {one.key for one in changed} == {OUT.key}
    assert len({one.fingerprint for one in (OUT, *changed)}) == len(changed) + 1


def test_of_two_that_cannot_be_told_apart_none_is_decided() -> None:
    """Should a check say one thing twice of one place, a decision covers neither."""
    found = decided([OUT, OUT], [Decision(fingerprint=OUT.fingerprint)])
    assert [one.is_open for one in found] == [True, True]


def test_a_figure_in_a_sentence_claims_three_letters_and_is_told_from_its_limit() -> None:
    """386.0 Hz claims a tenth nobody knows; where both would read alike each keeps its decimals."""
    high = replace(OUT, value=386.04, limit=120.0, unit="Hz")
    assert (high.shown_value, high.shown_limit) == ("386\u00a0Hz", "120\u00a0Hz")
    near = replace(high, limit=385.7)
    assert (near.shown_value, near.shown_limit) == ("386.0\u00a0Hz", "385.7\u00a0Hz")
    same = replace(high, limit=386.01)
    assert (same.shown_value, same.shown_limit) == ("386\u00a0Hz", "386\u00a0Hz")
