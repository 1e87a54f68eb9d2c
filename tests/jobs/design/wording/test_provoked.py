"""What is refused is said whole, in the reader's language and units, with no id left in it."""

from __future__ import annotations

import re
from typing import Any

import pytest
from django.utils import translation

from acoustics.errors import AcousticsError
from jobs.design.records.findings import reason
from jobs.design.wording.figures import SYMBOLS
from tests.jobs.design.wording.provoked import CASES
from wiring.errors import WiringError

# What the cases call their things, what comes from elsewhere, and words of both languages.
THINGS = {"rad", "board", "driver", "riser", "crossed", "lamp", "attic", "tin", "amp"}
SYMBOLIC = {symbol.lower() for symbol in SYMBOLS.values()} | {"iec", "awg", "sae"}
SHARED = {
    "khz",
    "phase",
    "front",
    "ring",
    "parallel",
    "linkwitz",
    "riley",
    "peukert",
    "exponent",
    "zone",
    "aluminium",
    "ohm",
    "port",
    "radius",
    "wav",
    "pcm",
    "bit",
    "min",
}
WORD = re.compile(r"[a-zA-Zäöüß]{3,}")


def refusal_of(case: str) -> Any:
    """Bring one about."""
    with pytest.raises((AcousticsError, WiringError)) as caught:
        CASES[case][0]()
    return caught.value


def said(error: Any, language: str) -> str:
    """What a reader of this language is told."""
    with translation.override(language):
        return reason(error).replace("\N{NO-BREAK SPACE}", " ")


@pytest.fixture(scope="module")
def refusals() -> dict[str, Any]:
    """All of them, each brought about once."""
    return {case: refusal_of(case) for case in CASES}


def test_the_cases_are_many_and_differ(refusals) -> None:
    """At least sixty refusals that differ in their code or in the figure refused."""
    errors = refusals.values()
    assert len({(e.code, e.given.get("name"), e.given.get("measure")) for e in errors}) >= 75
    assert len({e.code for e in errors}) >= 60


def test_the_english_reader_is_told_which_figure_and_what_is_asked_for(refusals) -> None:
    """Name, value and limit stand in the sentence, as the reader writes numbers."""
    told = {case: said(error, "en") for case, error in refusals.items()}
    assert {case: text for case, text in told.items() if CASES[case][1] not in text} == {}


@pytest.mark.parametrize("language", ["en", "de"])
def test_no_brace_and_no_code_is_left(refusals, language: str) -> None:
    """Nothing of the machinery stands in a sentence."""
    for case, error in refusals.items():
        sentence = said(error, language)
        ids = {error.code, error.given.get("name"), error.given.get("measure")}
        assert not [one for one in ids if one and "-" in one and one in sentence], case
        assert not set("{}%_") & set(sentence), case
        assert not sentence.endswith("."), case
        assert str(error) not in sentence, case


def test_no_english_stands_in_a_german_sentence(refusals) -> None:
    """No word of the English sentence is in the German one, but what both languages share."""
    for case, error in refusals.items():
        english, german = (set(WORD.findall(said(error, one).lower())) for one in ("en", "de"))
        assert german, case
        assert english & german - THINGS - SYMBOLIC - SHARED == set(), case
