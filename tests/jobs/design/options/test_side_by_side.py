"""Options of a job held side by side: their figures, and what nobody knows of them."""

from __future__ import annotations

from decimal import Decimal
from types import SimpleNamespace

import pytest

from jobs.design.job.whole import load, work_out
from jobs.design.options.side_by_side import ROWS, Side, work_out_options
from jobs.models import DesignOption, FactoryPart, Job, Stage
from jobs.options import keep
from tests.approval import hold


@pytest.mark.django_db
def test_options_stand_side_by_side(hatchback):
    """The first three of four, each with its figures; curves by the names of the options."""
    job = hatchback.job
    job.stage = Stage.SPEC
    job.save()
    keep(job, "Whole")
    hatchback.box.chosen = False
    hatchback.box.save()
    keep(job, "Without its box")
    hatchback.bass_run.remove()
    keep(job, "Shorter")
    keep(job, "Fourth")
    design = work_out(load(Job.objects.get(pk=job.pk)))
    options = work_out_options([*DesignOption.objects.order_by("pk")], design)
    lines = [f"{label}: {' | '.join(cells)}" for label, cells in options.rows]
    lines += [f"{side.letter} {side.option.name}: {side.goes_in}" for side in options.sides]
    lines += [f"drawn: {candidate.called}" for candidate in options.comparison.candidates]
    lines += [f"goes in: {len(options.goes_in)}", f"has text: {options.has_text}"]
    hold("options/side-by-side", lines)
    whole = [option for option in DesignOption.objects.order_by("pk") if option.name == "Whole"]
    of_one = work_out_options(whole, design)
    hold("options/drawn", [candidate.called for candidate in of_one.comparison.candidates])


def _side(**of) -> Side:
    """An option of which nothing is known, or what is given."""
    design = SimpleNamespace(
        boxes=[],
        masses=SimpleNamespace(net=0.0, unknown=[]),
        supply=SimpleNamespace(budget=None, reserves=[]),
        records=SimpleNamespace(panels=[], factory_parts=[], equipment=[]),
        price=SimpleNamespace(tasks=[], total=Decimal(0), currency="EUR", missing=[]),
    )
    for name, part in of.items():
        setattr(design, name, part)
    return Side(letter="A", option=DesignOption(name="invented"), design=design)


def _box(volume, *, chosen=True, load=None):
    wood = volume and SimpleNamespace(carcass=SimpleNamespace(outer_volume=volume))
    return SimpleNamespace(box=SimpleNamespace(chosen=chosen), wood=wood, load=load, figures=())


def _panels(*drilled):
    panels = [SimpleNamespace(name=f"P{n}", drilled=is_so) for n, is_so in enumerate(drilled)]
    return SimpleNamespace(panels=panels, factory_parts=[], equipment=[])


def _parts(*fates):
    parts = [FactoryPart(kind="speaker", place=fate.value, fate=fate) for fate in fates]
    return SimpleNamespace(panels=[], factory_parts=parts, equipment=["Amplifier", "Six"])


def _supply(average, *times):
    budget = average and SimpleNamespace(audio_average=average)
    return SimpleNamespace(budget=budget, reserves=[SimpleNamespace(time=t) for t in times])


def _price(*minutes, missing=()):
    tasks = [SimpleNamespace(minutes=each) for each in minutes]
    return SimpleNamespace(tasks=tasks, total=Decimal("99.50"), currency="EUR", missing=missing)


SIDES = {
    "nothing": _side(),
    "boxes drawn": _side(boxes=[_box(0.03), _box(0.012), _box(0.5, chosen=False)]),
    "a box not drawn": _side(boxes=[_box(0.03), _box(None)]),
    "a box not chosen and not drawn": _side(boxes=[_box(0.03), _box(None, chosen=False)]),
    "masses": _side(masses=SimpleNamespace(net=12.5, unknown=[])),
    "a mass unknown": _side(masses=SimpleNamespace(net=12.5, unknown=["x"])),
    "supply": _side(supply=_supply(23.0, 7200.0, None, 5400.0)),
    "no reserve known": _side(supply=_supply(23.0, None)),
    "drilled": _side(records=_panels(True, False, True, None)),
    "none drilled": _side(records=_panels(False, False)),
    "drilled or not": _side(records=_panels(False, None)),
    "parts": _side(records=_parts(*FactoryPart.Fate)),
    "work": _side(price=_price(30, 90, 0)),
    "work unknown": _side(price=_price(30, None, missing=["x"])),
}


def test_each_cell_says_what_is_known_and_what_is_not():
    """A sum that lacks something is *at least*; a thing nobody knows is no zero."""
    lines = [f"nothing, {label}: {cell(SIDES['nothing'])}" for label, cell in ROWS]
    for name, side in SIDES.items():
        told = [(label, cell(side), cell(SIDES["nothing"])) for label, cell in ROWS]
        lines += [f"{name}, {label}: {now}" for label, now, usual in told if now != usual]
        lines += [f"{name}: {side.goes_in}"] if side.goes_in else []
    hold("options/cells", lines)


def test_a_box_nobody_could_work_out_is_no_missing_box():
    """Its lowest note and its level are not known; *no box* is said where none is built."""
    cells = {str(label): cell for label, cell in ROWS}
    unknown, without = _side(boxes=[_box(0.03)]), _side(boxes=[_box(0.03, chosen=False, load=1)])
    no_figure = _side(boxes=[_box(0.03, load=1)])
    for name in ("Lowest note", "Loudest clean bass, 40 Hz at 1 m"):
        assert cells[name](unknown) == "not known"
        assert cells[name](without) == "no box"
    assert cells["Lowest note"](no_figure) == "not known"
