"""Cables and fuses chosen from a catalogue for the records of a job."""

from __future__ import annotations

import pytest

from jobs.design.job.whole import load, work_out
from jobs.design.wiring.choose import BOUND, choose_parts
from jobs.models import Conductor, Fuse, Holder, PowerNode, Run, Terminal
from jobs.units import kelvin
from tests.jobs.factories import make_conductor, make_run_as_built, make_terminal
from wiring.runs.choose import _CURED_BY_CABLE

pytestmark = pytest.mark.django_db


def _power(scene):
    return work_out(load(scene.job)).power


def _choose(scene, keep: tuple[int, ...] = ()):
    return choose_parts(_power(scene), Conductor.objects.all(), Fuse.objects.all(), keep=keep)


def _cable(size: str) -> Conductor:
    return Conductor.objects.get(size=size)


@pytest.fixture(params=["hatchback", "van", "saloon"])
def scene(request, hatchback, van, saloon):
    """Each of them: several branches, two batteries, a single run."""
    return {"hatchback": hatchback, "van": van, "saloon": saloon}[request.param]


def test_what_is_chosen_passes_when_it_is_put_in(scene):
    """With the proposals saved, the job has no stop in its wiring, nor a new look."""
    # Whatever is there, something else would be chosen.
    Run.objects.filter(job=scene.job, kind="P").update(conductor=_cable("35 mm²"))
    before = {one.code for one in _power(scene).findings if one.severity != "note"}
    choice = _choose(scene)
    assert choice.passes
    assert choice.changed
    for one in choice.changed:
        Run.objects.filter(pk=one.run.pk).update(
            conductor=one.conductor, fuse=one.fuse, end_fuse=one.end_fuse
        )
    after = {one.code for one in _power(scene).findings if one.severity != "note"}
    assert after <= before
    assert not [one for one in _power(scene).findings if one.severity == "stop"]
    assert not _choose(scene).changed  # and it is what would be chosen again


def test_what_was_built_otherwise_is_left_as_it_is(hatchback, shelf, cast):
    """A run that lies in the car otherwise than planned is no plan any more: nothing is proposed.

    What it is instead stands in the proposal, and its planned row is not written over.
    """
    run = hatchback.six_run
    make_run_as_built(run, cast.installer, conductor=shelf["35 mm²"])
    choice = _choose(hatchback)
    built = next(one for one in choice.proposals if one.run == run)
    assert built.kept
    assert not built.changes
    assert built.conductor == shelf["35 mm²"]
    assert built.because == str(BOUND["built"])


def test_a_run_that_is_kept_keeps_its_parts_and_the_rest_answers(hatchback, shelf):
    """The person's own cable stays to the last fuse, even one the chooser would not take."""
    run = hatchback.six_run
    Run.objects.filter(pk=run.pk).update(conductor=shelf["35 mm²"])
    choice = _choose(hatchback, keep=(run.pk,))
    kept = next(one for one in choice.proposals if one.run == run)
    assert kept.kept
    assert not kept.changes
    assert kept.because == "kept as it is"
    assert choice.passes
    assert _choose(hatchback).fingerprint != choice.fingerprint


def test_a_kept_run_with_a_stop_lets_nothing_pass(hatchback):
    """Keeping what burns is no choice: the stop is told, and nothing can be put in."""
    run = hatchback.six_run
    Run.objects.filter(pk=run.pk).update(fuse=None)
    assert _choose(hatchback).passes
    choice = _choose(hatchback, keep=(run.pk,))
    assert not choice.passes
    stops = [one.where for one in choice.findings if one.severity == "stop"]
    # The block's 125 A are then all that guards the amplifier, whose maker asks for 60.
    assert stops == [run.label, "Front amplifier"]


def test_a_run_whose_parts_serve_keeps_them_though_another_is_cheaper(hatchback):
    """Of equal parts the one already there stays; else the cheapest."""
    there = hatchback.six_run.conductor
    make_conductor("16 mm²", price=1)
    choice = _choose(hatchback)
    kept = next(one for one in choice.proposals if one.run == hatchback.six_run)
    assert kept.conductor == there


def test_no_catalogue_no_choice(hatchback):
    """Without copper cable of known class the reason is told, in words of its own."""
    Conductor.objects.update(insulation_temperature=None)
    choice = _choose(hatchback)
    assert not choice.passes
    assert choice.left_out >= Conductor.objects.count()
    (finding,) = choice.findings
    assert finding.code == "choice-cannot-be"
    assert "must be" not in finding.says


def test_nothing_large_enough_says_which_limit(hatchback):
    """With thin cable only, nothing passes; value and limit of the stop are shown."""
    thin = Conductor.objects.filter(size="1.5 mm²")
    choice = choose_parts(_power(hatchback), thin, Fuse.objects.all())
    assert not choice.passes
    stops = [one for one in choice.findings if one.severity == "stop"]
    assert stops
    assert any(one.shown_value and one.shown_limit for one in stops)


def test_a_fuse_for_too_little_voltage_is_not_offered(hatchback):
    """Fuses whose sheet says 12 V are left aside; a network of 12 V may reach 16 V."""
    names = [one.fuse.pk for one in _choose(hatchback).proposals]
    Fuse.objects.filter(pk__in=names).update(voltage=12.0)
    assert not {one.fuse.pk for one in _choose(hatchback).proposals if one.fuse} & set(names)


def test_a_part_with_a_figure_that_cannot_be_is_left_aside(hatchback):
    """A cable for 300 °C and a fuse that breaks nothing stop nobody from choosing."""
    before = _choose(hatchback).left_out
    Conductor.objects.filter(size="10 mm²").update(insulation_temperature=kelvin(300))
    Fuse.objects.filter(rating=125).update(breaking_capacity=0.0)
    choice = _choose(hatchback)
    assert choice.passes
    assert choice.left_out == before + 2
    Conductor.objects.filter(size="35 mm²").update(insulation_temperature=kelvin(300))
    assert "tree-cannot-be" in {one.code for one in _power(hatchback).findings}


def test_a_loose_run_or_a_tree_without_voltage_is_told_first(hatchback):
    """What no cable cures stands in the way by its own name."""
    PowerNode.objects.filter(pk=hatchback.battery.pk).update(voltage=None)
    choice = _choose(hatchback)
    assert not choice.passes
    assert "source-without-voltage" in {one.code for one in choice.findings}
    PowerNode.objects.filter(pk=hatchback.battery.pk).update(voltage=12.6)
    Run.objects.filter(pk=hatchback.processor_run.pk).update(end=None)
    assert "run-goes-nowhere" in {one.code for one in _choose(hatchback).findings}
    assert not _choose(hatchback).passes


def test_the_charging_current_between_two_batteries_is_chosen_for(van):
    """The van's link carries what charges a flat battery, not what the music takes."""
    link = next(p for p in _choose(van).proposals if p.run.pk == van.link.pk)
    assert link.fuse.rating == link.end_fuse.rating == 150.0


def test_a_typed_distance_to_a_fuse_that_is_not_chosen_yet_binds(hatchback):
    """Where somebody wants the main fuse stays as it was typed, and its look stays too."""
    Run.objects.filter(pk=hatchback.main_run.pk).update(fuse=None, fuse_distance=0.3)
    choice = _choose(hatchback)
    main = next(p for p in choice.proposals if p.run.pk == hatchback.main_run.pk)
    assert main.fuse is not None
    assert main.fuse_distance is None
    assert "fuse-beyond-178-mm" in {finding.code for finding in choice.findings}


def test_every_bound_has_its_words():
    """Whatever can bind a choice in the calculator is said in words."""
    assert BOUND.keys() == _CURED_BY_CABLE | {"kept", "smallest", "built"}


def test_a_fuse_gets_a_holder_and_terminals_that_are_known_to_fit(hatchback):
    """By hand: of four holders one takes the fuse, its current and 35 mm²; its stud is M8.

    What is there stays while it fits; where nothing is known to fit, that is a finding.
    """
    run = hatchback.main_run
    plain = {"kind": "holder", "stud": "M8", "largest_cable": 50e-6, "rated_current": 300.0}
    plain |= {"takes": "sf51"}
    for other in ({"largest_cable": 10e-6}, {"rated_current": 90.0}, {"ways": 4}):
        Holder.objects.create(name="Other", **(plain | other))
    fits = Holder.objects.create(name="Fits", **plain)
    sizes = {"smallest_cable": 1e-6, "largest_cable": 70e-6}
    make_terminal("Ring M5", stud="M5", price=1, **sizes)
    ring = make_terminal("Ring M8", stud="M8", price=2, **sizes)
    Run.objects.filter(pk=run.pk).update(fuse_holder=None, fuse_terminal=None)

    def chosen():
        proposals, findings = _with_holders(hatchback)
        return next(one for one in proposals if one.run == run), findings

    proposal, findings = chosen()
    assert (proposal.at_start.holder, proposal.at_start.terminal) == (fits, ring)
    assert proposal.changes
    assert not {"choice-without-holder", "choice-without-terminal"} & {f.code for f in findings}
    there = Holder.objects.create(name="There", **plain)
    Run.objects.filter(pk=run.pk).update(fuse_holder=there)
    assert chosen()[0].at_start.holder == there
    Holder.objects.update(takes="")
    Terminal.objects.update(largest_cable=None)
    proposal, findings = chosen()
    assert (proposal.at_start.holder, proposal.at_start.terminal) == (there, None)
    lacking = {f.code for f in findings if f.name == run.label}
    assert {"choice-without-holder", "choice-without-terminal"} <= lacking


def _with_holders(scene):
    choice = choose_parts(
        _power(scene),
        Conductor.objects.all(),
        Fuse.objects.all(),
        holders=list(Holder.objects.all()),
        terminals=list(Terminal.objects.all()),
    )
    return choice.proposals, choice.findings
