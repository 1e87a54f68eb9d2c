"""Copies of the demo's cars, broken on purpose: every kind of stop of the wiring is found."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from jobs.design.job.whole import load, work_out
from jobs.models import (
    Amplifier,
    Conductor,
    Driver,
    Job,
    Part,
    PowerNode,
    Run,
    Stretch,
    Terminal,
    Vehicle,
)
from jobs.units import kelvin
from wiring.findings import CODES, STOP

pytestmark = pytest.mark.django_db
ESTATE, CAMPER = 1, 2
Break = Callable[[], object]


def _run(label: str, job: int = ESTATE) -> Run:
    return Run.objects.get(job__number=job, kind=label[0], number=int(label[1:]))


def _set(row: object, **values: object) -> None:
    """Change some figures of a row that is not versioned here."""
    type(row).objects.filter(pk=row.pk).update(**values)  # type: ignore[attr-defined]


def _node(name: str, job: int = ESTATE) -> PowerNode:
    return PowerNode.objects.get(job__number=job, name=name)


def _cable(size: str) -> Conductor:
    return Conductor.objects.filter(size=size, metal=Conductor.Metal.COPPER).order_by("pk")[0]


def _of(label: str, job: int = ESTATE, **values: object) -> Break:
    return lambda: _set(_run(label, job), **values)


def _at(name: str, job: int = ESTATE, **values: object) -> Break:
    return lambda: _set(_node(name, job), **values)


def _resize(label: str, size: str) -> Break:
    return lambda: _set(_run(label), conductor=_cable(size))


def _refuse(label: str, **values: object) -> Break:
    """Change the part that is fitted as the fuse of a run."""
    return lambda: _set(_run(label).fuse, **values)


def _amplifier(name: str, **values: object) -> Break:
    return lambda: Amplifier.objects.filter(name=name).update(**values)


def _car(**values: object) -> Break:
    return lambda: Vehicle.objects.filter(jobs__number=ESTATE).update(**values)


def _second_way() -> None:
    Run.objects.create(
        job=Job.objects.get(number=ESTATE), kind="P", number=9, length=1.0, zone="boot",
        start=_node("Battery"), end=_node("Amplifier Six"), conductor=_cable("16 mm²"),
        return_kind="cable", return_length=1.0, fuse=_run("P02").fuse, fuse_distance=0.1,
    )  # fmt: skip


def _lug_on_clad() -> None:
    clad = Conductor.objects.get(metal=Conductor.Metal.CCA_15)
    lug = Terminal.objects.create(
        kind=Part.Kind.TERMINAL, name="invented lug", metals=Terminal.Metals.COPPER
    )
    _set(_run("P02"), conductor=clad, start_terminal=lug, end_terminal=lug)


def _bare_edge() -> None:
    Stretch.objects.filter(run=_run("P01")).update(edge=Stretch.Edge.BARE)


# Code of a stop -> how the copy is broken, in words, and the deed.
BREAKS: dict[str, tuple[str, Break]] = {
    "loop": ("a second run from the battery past the block to an amplifier", _second_way),
    "load-without-source": ("the amplifier's run removed", lambda: _run("P02").remove()),
    "length-unknown": ("no length", _of("P01", length=None)),
    "conductor-unknown": ("no cable chosen", _of("P01", conductor=None)),
    "return-unknown": ("no way back entered", _of("P01", return_kind="")),
    "source-resistance-unknown": (
        "battery without its resistance",
        _at("Battery", internal_resistance=None),
    ),
    "current-limit-unknown": (
        "a converter without its limit where the second battery was",
        _at("Leisure battery", CAMPER, kind="dc_dc", current_limit=None),
    ),
    "load-draw-unknown": ("no efficiency", _amplifier("Six", efficiency=None)),
    "no-solution": (
        "a worn battery of 200 mΩ under 940 W",
        _at("Battery", internal_resistance=0.2),
    ),
    "voltage-below-load-minimum": (
        "an amplifier that asks for 12.5 V",
        _amplifier("Six", minimum_voltage=12.5),
    ),
    "ampacity-exceeded": ("the main run in 4 mm²", _resize("P01", "4 mm²")),
    "ampacity-outside-table": ("a power run in 0.5 mm²", _resize("P04", "0.5 mm²")),
    "insulation-below-ambient": (
        "cable for 60 °C in the engine bay",
        lambda: (
            _set(_run("P01").conductor, insulation_temperature=kelvin(60)),
            _set(_run("P01"), zone="engine bay"),
        ),
    ),
    "unprotected-conductor": ("the main fuse left out", _of("P01", fuse=None)),
    "second-source-unprotected": (
        "the fuse at the second battery left out",
        _of("P01", CAMPER, end_fuse=None),
    ),
    "fuse-above-conductor": ("80 A before 4 mm²", _resize("P02", "4 mm²")),
    "fuse-below-load": ("5 A before an amplifier", _refuse("P03", rating=5.0)),
    "fuse-beyond-1829-mm": ("2 m of cable before the main fuse", _of("P01", fuse_distance=2.0)),
    "breaking-capacity-low": (
        "a main fuse that breaks 1 kA",
        _refuse("P01", breaking_capacity=1e3),
    ),
    "fuse-voltage-low": ("a main fuse for 12 V", _refuse("P01", voltage=12.0)),
    "insulation-damaged-first": (
        "a fuse that takes half a minute at six times its rating",
        _refuse("P02", curve=[[6.0, 30.0]]),
    ),
    "fuse-may-not-open": ("30 m to the amplifier", _of("P02", length=30.0, return_length=30.0)),
    "terminal-unsuited-to-metal": ("a copper-only lug on copper-clad aluminium", _lug_on_clad),
    "load-below-amplifier-lowest": (
        "an amplifier for 8 Ω and more",
        _amplifier("Six", lowest_load=8.0),
    ),
    "supply-short-driving": (
        "an alternator of 60 A",
        _car(charging_current=60, charging_current_idle=30),
    ),
    "high-voltage-tap": ("parts on the 400 V network", _at("Battery", voltage=400.0)),
    "forty-eight-volt-tap": ("parts on the 48 V network", _at("Battery", voltage=48.0)),
    "dc-dc-accessory-limit-exceeded": (
        "a converter whose maker allows 5 A of added load",
        _car(charging_source="dc_dc", accessory_limit=5),
    ),
    "note-collapses": (
        "a battery of 80 mΩ: music passes, full output does not",
        _at("Battery", internal_resistance=0.08),
    ),
    "speaker-load-unknown": (
        "a driver without its impedance",
        lambda: Driver.objects.filter(name="Low 30").update(nominal_impedance=None),
    ),
    "speaker-run-over-ampacity": (
        "twenty cables in one bundle in the engine bay",
        lambda: (
            _resize("S07", "1.5 mm²")(),
            _set(_run("S07"), bundle=20, zone="engine bay"),
        ),
    ),
    "turn-on-needs-relay": (
        "both amplifiers on an output for 5 mA",
        _of("C01", current=0.02, source_limit=0.005),
    ),
    "relay-coil-over-limit": (
        "a relay coil of 150 mA on an output for 100 mA",
        _of("C01", current=0.02, source_limit=0.1, relay=True, relay_coil=0.15),
    ),
    "grommet-missing": ("a metal edge left bare", _bare_edge),
}


def _stops() -> set[str]:
    found: set[str] = set()
    for job in Job.objects.filter(number__in=(ESTATE, CAMPER)):
        found |= {one.code for one in work_out(load(job)).findings if one.severity == "stop"}
    return found


def test_the_demo_itself_has_no_stop_of_the_wiring(demo):
    """What a broken copy is found by is not there before it is broken."""
    assert not _stops() & {code for code, severity in CODES.items() if severity == STOP}


def test_no_stop_is_forgotten():
    """Every stop the wiring knows is brought about above: none is out of the records' reach."""
    assert BREAKS.keys() == {code for code, severity in CODES.items() if severity == STOP}


@pytest.mark.parametrize("code", BREAKS)
def test_a_broken_copy_is_stopped(demo, code):
    """The copy broken in this one way shows this stop."""
    how, deed = BREAKS[code]
    deed()
    assert code in _stops(), how
