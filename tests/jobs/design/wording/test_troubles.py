"""Everything the acoustics refuse has words of its own, in units of the reader."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest
from django.utils import translation
from jobs.design.wording.troubles import AT_LEAST, BELOW, BETWEEN, FITS, LIMITS

from acoustics.carcass.shape.errors import PlacementError
from acoustics.driver.completion import complete_driver
from acoustics.enclosure.boxes import Sealed
from acoustics.errors import (
    AcousticsError,
    ContradictionError,
    FitError,
    MissingError,
    NoSolutionError,
    OutOfRangeError,
    PortFitError,
)
from jobs.design.job.whole import load, work_out
from jobs.design.records.findings import Finding, reason
from jobs.design.wording.columns import TROUBLES
from jobs.design.wording.figures import FIGURES, SYMBOLS
from jobs.models import Box

ACOUSTICS = Path(__file__).parents[4] / "acoustics"
# Rooms a box, a sweep or a cabin of a job comes through.
ROOMS = (
    *("boxes", "cabin", "combination", "completion", "doors", "driver", "filters"),
    *("impedance_fit", "limits", "measurement", "mesh", "modes", "openings", "port", "solver"),
)
CHECKS = {"OutOfRangeError", "require_positive", "require_between"}


def _source(room):
    return next(ACOUSTICS.rglob(f"{room}.py")).read_text()


def _calls(names):
    for room in ROOMS:
        for node in ast.walk(ast.parse(_source(room))):
            if isinstance(node, ast.Call) and getattr(node.func, "id", "") in names:
                yield node, {one.arg: one.value for one in node.keywords}


def _texts(nodes):
    return {n.value for n in nodes if isinstance(n, ast.Constant) and isinstance(n.value, str)}


def test_every_figure_that_may_be_refused_has_a_name():
    """Each name a calculator gives a figure is a symbol of the trade or has words."""
    given = _texts(
        [more.get("name") or node.args[0] for node, more in _calls(CHECKS) if node.args or more]
    )
    assert len(given) > 50
    assert {one for one in given if one not in SYMBOLS and one not in FIGURES} == set()


def test_every_limit_has_words():
    """A limit is a number, a range, or a phrase that can be translated."""
    given = _texts(
        [more["limit"] for _node, more in _calls({"OutOfRangeError"}) if "limit" in more]
    )
    patterns = (BETWEEN, BELOW, AT_LEAST)
    assert [
        one for one in given if one not in LIMITS and not any(p.fullmatch(one) for p in patterns)
    ] == []


def test_every_reason_of_a_sweep_has_words():
    """Why a text is no sweep, and why a sweep tells nothing: every key the calculators know."""
    keys = set()
    for room in ("columns", "measurement", "impedance_fit"):
        for node in ast.walk(ast.parse(_source(room))):
            if isinstance(node, ast.Assign) and getattr(node.targets[0], "id", "") == "reason":
                keys |= _texts([node.value])
    assert len(keys) > 12
    assert keys - set(FITS) - set(TROUBLES) == set()


def _raised(work) -> AcousticsError:
    with pytest.raises(AcousticsError) as caught:
        work()
    return caught.value


@pytest.mark.parametrize(
    ("error", "says"),
    [
        (
            _raised(lambda: Sealed(volume=0.03, fill=1.6)),
            "filling gain: 1.600; asked for: 1.000 to",
        ),
        (_raised(lambda: Sealed(volume=-0.03)), "net volume: -30.00\xa0L; asked for: more than"),
        (_raised(lambda: complete_driver(fs=30.0)), "not known: Qms, Qes, Re, Vas, Sd"),
        (
            _raised(
                lambda: complete_driver(fs=30, qts=0.6, qes=0.5, qms=4, re=3, vas=0.03, sd=0.03)
            ),
            "Qts is given as 0.600, but the other figures ask for less than 0.500",
        ),
        (NoSolutionError("Qtc", 0.3, 0.42), "Qtc: 0.300 is out of reach; the nearest is 0.420"),
        (PortFitError(60.0, 48.0), "cannot be tuned to 60.0\xa0Hz"),
        (FitError("coarse", "", value=31.0, unit="Hz"), "across the resonance near 31.0\xa0Hz"),
        (FitError("uncertain", "", value="qms, qes", limit=0.2), "leaves Qms, Qes uncertain"),
        (ContradictionError("xmech", 0.01, "at least xmax 0.014", "m"), "at least 14.0\xa0mm"),
        (OutOfRangeError("drivers in series", 1.5, "a whole number"), "a whole number"),
        (PlacementError("port: too wide"), "something does not fit where it is put: port: too"),
        (MissingError("the box", ("port and tuning",)), "not known: the port: its opening"),
    ],
    ids=lambda value: type(value).__name__ if isinstance(value, Exception) else "",
)
def test_what_was_refused_is_said_in_words_and_units(error, says):
    """Name, value and limit stand in the sentence, as the reader writes numbers."""
    with translation.override("en"):
        assert says in reason(error)
    with translation.override("de"):
        assert "%(" not in reason(error)


@pytest.mark.django_db
def test_a_box_that_cannot_be_says_so_under_one_key_in_every_language(hatchback):
    """The words follow the reader, the fingerprint a decision hangs on does not."""
    job = hatchback.job
    box = Box.objects.create(
        job=job, name="invented", kind="door", driver=hatchback.sub, wanted_volume=0.04
    )

    def found() -> Finding:
        [one] = work_out(load(job)).saved_box(box.pk).findings
        return one

    with translation.override("en"):
        english = found()
        assert english.says.endswith("cannot be worked out: not known: leakage QL of the door.")
        assert work_out(load(job)).saved_box(box.pk).trouble == "not known: leakage QL of the door"
    with translation.override("de"):
        assert found().fingerprint == english.fingerprint
