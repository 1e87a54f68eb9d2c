"""The words of every finding, refusal and source: the one place where a code becomes words."""

from __future__ import annotations

from django.utils.functional import Promise
from django.utils.translation import gettext

from jobs.design.wording.boxes import BOXES
from jobs.design.wording.joining import FASTENERS
from jobs.design.wording.measured import MEASURED
from jobs.design.wording.power import POWER
from jobs.design.wording.records import RECORDS
from jobs.design.wording.runs import RUNS
from jobs.design.wording.setup import SETUP
from jobs.design.wording.sources import sources_said
from jobs.design.wording.supply import SUPPLY
from jobs.design.wording.terms import term, terms
from jobs.design.wording.wood import WOOD

__all__ = ["WORDS", "cure", "says", "sources_said", "term", "terms"]

# code -> (what it says, what cures it). {where}, {value} and {limit} are filled in; {amount} is
# the value without its sign, for margins that are below zero when something is wrong.
WORDS: dict[str, tuple[Promise, Promise]] = {
    **BOXES,
    **MEASURED,
    **WOOD,
    **FASTENERS,
    **RECORDS,
    **POWER,
    **SUPPLY,
    **RUNS,
    **SETUP,
}


def says(code: str, where: str, value: str, limit: str) -> str:
    """Return the finding as one sentence."""
    return _filled(WORDS[code][0], where, value, limit)


def cure(code: str) -> str:
    """Return what would cure it."""
    return str(WORDS[code][1])


def _filled(words: Promise, where: str, value: str, limit: str) -> str:
    unknown = gettext("unknown")
    return str(words).format(
        where=where,
        value=value or unknown,
        limit=limit or unknown,
        amount=value.lstrip("-−") or unknown,
    )
