"""Scenes broken on purpose: every kind of stop of the wiring is found."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

import pytest
from django.db.models import Model

from jobs.design.job.whole import load, work_out
from jobs.models import Holder, Stretch
from jobs.units import kelvin
from tests.jobs.factories import make_item, make_power_run, make_terminal
from tests.jobs.scenes import Hatchback, Van
from tests.jobs.shelf import Shelf
from wiring.findings import CODES, STOP

pytestmark = pytest.mark.django_db


@dataclass(frozen=True)
class Cars:
    """What may be broken."""

    hatchback: Hatchback
    van: Van
    shelf: Shelf


Break = Callable[[Cars], object]


@pytest.fixture
def cars(hatchback, van, shelf) -> Cars:
    return Cars(hatchback, van, shelf)


def _set(row: Model, **values: object) -> None:
    """Change some figures of a row that is not versioned here."""
    type(row).objects.filter(pk=row.pk).update(**values)  # type: ignore[attr-defined]


def _of(name: str, **values: object) -> Break:
    """Change a row of the hatchback."""
    return lambda cars: _set(getattr(cars.hatchback, name), **values)


def _van(name: str, **values: object) -> Break:
    return lambda cars: _set(getattr(cars.van, name), **values)


def _part(name: str, **values: object) -> Break:
    return lambda cars: _set(cars.shelf[name], **values)


def _resize(run: str, cable: str) -> Break:
    return lambda cars: _set(getattr(cars.hatchback, run), conductor=cars.shelf[cable])


def _car(**values: object) -> Break:
    return lambda cars: _set(cars.hatchback.job.vehicle, **values)


def _second_way(cars: Cars) -> None:
    scene, shelf = cars.hatchback, cars.shelf
    make_power_run(
        scene.battery, scene.six_node, shelf["16 mm²"], 1.0, fuse=shelf["80 A"], fuse_distance=0.1
    )


def _lug_on_clad(cars: Cars) -> None:
    lug = make_terminal("invented lug")
    _set(
        cars.hatchback.six_run,
        conductor=cars.shelf["clad"],
        start_terminal=lug,
        end_terminal=lug,
    )


def _bare_edge(cars: Cars) -> None:
    Stretch.objects.filter(run=cars.hatchback.main_run).update(edge=Stretch.Edge.BARE)


def _booster_in_a_ring(cars: Cars) -> None:
    """The van's second battery as a booster whose output leads back to the starter battery."""
    _set(cars.van.leisure, kind="dc_dc", current_limit=30.0)
    make_power_run(cars.van.leisure, cars.van.starter, cars.shelf["10 mm²"], 4.0)


def _holder(**figures: object) -> Break:
    """The hatchback's block as a part of the catalogue."""

    def deed(cars: Cars) -> None:
        plain = {"ways": 4, "rated_current": 200.0, "largest_cable": 35e-6}
        part = Holder.objects.create(kind="holder", name="Block", **(plain | figures))
        item = make_item(cars.hatchback.job, part, "boot")
        _set(cars.hatchback.block, equipment=item)

    return deed


def _weak_holder(cars: Cars) -> None:
    part = Holder.objects.create(kind="holder", name="Holder", rated_current=100.0)
    _set(cars.hatchback.main_run, fuse_holder=part)


def _other_holder(cars: Cars) -> None:
    part = Holder.objects.create(kind="holder", name="Holder", rated_current=300.0, takes="mini")
    _set(cars.hatchback.main_run, fuse_holder=part)


# Code of a stop -> how the copy is broken, in words, and the deed.
BREAKS: dict[str, tuple[str, Break]] = {
    "loop": ("a second run from the battery past the block to an amplifier", _second_way),
    "load-without-source": (
        "the amplifier's run removed",
        lambda cars: cars.hatchback.six_run.remove(),
    ),
    "length-unknown": ("no length", _of("main_run", length=None)),
    "conductor-unknown": ("no cable chosen", _of("main_run", conductor=None)),
    "return-unknown": ("no way back entered", _of("main_run", return_kind="")),
    "source-resistance-unknown": (
        "battery without its resistance",
        _of("battery", internal_resistance=None),
    ),
    "current-limit-unknown": (
        "a converter without its limit where the second battery was",
        _van("leisure", kind="dc_dc", current_limit=None),
    ),
    "load-draw-unknown": ("no efficiency", _part("six", efficiency=None)),
    "no-solution": (
        "a worn battery of 200 mΩ under 940 W",
        _of("battery", internal_resistance=0.2),
    ),
    "voltage-below-load-minimum": (
        "an amplifier that asks for 12.5 V",
        _part("six", minimum_voltage=12.5),
    ),
    "ampacity-exceeded": ("the main run in 4 mm²", _resize("main_run", "4 mm²")),
    "ampacity-outside-table": ("a power run in 0.5 mm²", _resize("processor_run", "0.5 mm²")),
    "insulation-below-ambient": (
        "cable for 60 °C in the engine bay",
        lambda cars: (
            _set(cars.shelf["35 mm²"], insulation_temperature=kelvin(60)),
            _set(cars.hatchback.main_run, zone="engine bay"),
        ),
    ),
    "unprotected-conductor": ("the main fuse left out", _of("main_run", fuse=None)),
    "second-source-unprotected": (
        "the fuse at the second battery left out",
        _van("link", end_fuse=None),
    ),
    "fuse-above-conductor": ("80 A before 4 mm²", _resize("six_run", "4 mm²")),
    "fuse-below-load": ("5 A before an amplifier", _part("60 A", rating=5.0)),
    "fuse-too-far": (
        "2 m of cable before the fuse of the link",
        _van("link", fuse_distance=2.0),
    ),
    "fuse-beyond-run-end": ("a fuse past the end", _of("main_run", fuse_distance=0.9)),
    "fuse-above-part": (
        "80 A where its maker asks for 60",
        lambda cars: _set(cars.hatchback.six_run, fuse=cars.shelf["80 A"]),
    ),
    "voltage-above-part": ("12 V amplifiers on 24 V", _of("battery", voltage=25.2)),
    "networks-joined": ("24 V beside 12 V", _van("leisure", voltage=25.2, flat_voltage=24.0)),
    "contact-over-rating": (
        "a switch for 20 A in place of the block",
        _of("block", kind="switch", rated_current=20.0),
    ),
    "converter-feeds-itself": ("a booster with a way back", _booster_in_a_ring),
    "fuse-opens-on-start": ("a starter of 2 000 A", _van("starter", starting_current=2000.0)),
    "start-overheats-run": (
        "a starter of 2 000 A and a thin link",
        lambda cars: (
            _set(cars.van.starter, starting_current=2000.0),
            _set(cars.van.link, conductor=cars.shelf["4 mm²"]),
        ),
    ),
    "breaking-capacity-low": (
        "a main fuse that breaks 1 kA",
        _part("150 A", breaking_capacity=1e3),
    ),
    "fuse-voltage-low": ("a main fuse for 12 V", _part("150 A", voltage=12.0)),
    "insulation-damaged-first": (
        "a fuse that takes half a minute at six times its rating",
        _part("60 A", curve=[[6.0, 30.0]]),
    ),
    "fuse-may-not-open": ("32 m to the amplifier", _of("six_run", length=32.0, return_length=32.0)),
    "terminal-unsuited-to-metal": ("a copper-only lug on copper-clad aluminium", _lug_on_clad),
    "load-below-amplifier-lowest": (
        "an amplifier for 8 Ω and more",
        _part("six", lowest_load=8.0),
    ),
    "supply-short-driving": (
        "an alternator of 60 A",
        _car(charging_current=60, charging_current_idle=30),
    ),
    "high-voltage-tap": ("parts on the 400 V network", _of("battery", voltage=400.0)),
    "forty-eight-volt-tap": ("parts on the 48 V network", _of("battery", voltage=48.0)),
    "dc-dc-accessory-limit-exceeded": (
        "a converter whose maker allows 5 A of added load",
        _car(charging_source="dc_dc", accessory_limit=5),
    ),
    "note-collapses": (
        "a battery of 80 mΩ: music passes, full output does not",
        _of("battery", internal_resistance=0.08),
    ),
    "speaker-load-unknown": (
        "a driver without its impedance",
        _part("sub", nominal_impedance=None),
    ),
    "speaker-run-over-ampacity": (
        "twenty cables in one bundle in the engine bay",
        lambda cars: (
            _set(cars.hatchback.bass_run, conductor=cars.shelf["1.5 mm² pair"]),
            _set(cars.hatchback.bass_run, bundle=20, zone="engine bay"),
        ),
    ),
    "turn-on-needs-relay": (
        "both amplifiers on an output for 5 mA",
        _of("turn_on_run", current=0.02, source_limit=0.005),
    ),
    "relay-coil-over-limit": (
        "a relay coil of 150 mA on an output for 100 mA",
        _of("turn_on_run", current=0.02, source_limit=0.1, relay=True, relay_coil=0.15),
    ),
    "signal-on-supply": (
        "a signal run from the battery",
        lambda cars: _set(cars.hatchback.line_run, start=cars.hatchback.battery),
    ),
    "control-unprotected": ("fed by the car", _of("turn_on_run", fed_by="supply", start=None)),
    "control-fuse-above-cable": (
        "40 A before 0.5 mm²",
        lambda cars: _set(cars.hatchback.turn_on_run, fed_by="supply", fuse=cars.shelf["40 A"]),
    ),
    "control-over-ampacity": ("30 A in 0.5 mm²", _of("turn_on_run", current=30.0)),
    "control-output-above-cable": ("an output of 40 A", _of("turn_on_run", source_limit=40.0)),
    "control-cable-unrated": ("a hair of a cable", _part("0.5 mm²", size="22 AWG")),
    "ground-not-bare": ("a painted stud", _of("ground_bar", kind="body", surface="painted")),
    "ground-on-sensed-post": ("the minus on the post", _of("sensor", kind="post")),
    "shared-return-over-ampacity": (
        "all returns on by 2.5 mm²",
        lambda cars: _set(cars.hatchback.ground_bar, conductor=cars.shelf["2.5 mm²"], length=0.3),
    ),
    "terminal-wrong-size": (
        "a ring for 35 mm² on 16 mm²",
        lambda cars: _set(cars.hatchback.six_run, start_terminal=cars.shelf["ring 35 mm²"]),
    ),
    "terminal-wrong-stud": (
        "an M5 ring on the M8 of the bar",
        lambda cars: _set(
            cars.hatchback.processor_run, return_start_terminal=cars.shelf["ring 2.5 mm²"]
        ),
    ),
    "holder-ways": ("three branches on one way", _holder(ways=1)),
    "holder-cable": ("35 mm² on a block for 10 mm²", _holder(largest_cable=10e-6)),
    "holder-over-rating": ("79 A on a block for 50 A", _holder(rated_current=50.0)),
    "holder-for-other-fuse": ("a strip fuse in a holder for small blades", _other_holder),
    "fuse-above-holder": ("150 A in a holder for 100 A", _weak_holder),
    "high-level-into-line": (
        "the wires of a speaker on an input nobody has read",
        _of("join", carries="high", level=8.0),
    ),
    "data-without-interface": ("a bus on a processor", _of("join", carries="data")),
    "interface-without-data": (
        "an interface that no bus leads to",
        _part("processor", device="interface"),
    ),
    "grommet-missing": ("a metal edge left bare", _bare_edge),
}


def _stops(cars: Cars) -> Iterator[str]:
    """The codes of stops, of the van only where the hatchback was not enough."""
    for scene in (cars.hatchback.again(), cars.van.again()):
        findings = work_out(load(scene.job)).findings
        yield from (finding.code for finding in findings if finding.severity == "stop")


def test_the_scenes_themselves_have_no_stop_of_the_wiring(cars):
    """What a broken copy is found by is not there before it is broken."""
    assert not set(_stops(cars)) & {code for code, severity in CODES.items() if severity == STOP}


def test_no_stop_is_forgotten():
    """Every stop the wiring knows is brought about above: none is out of the records' reach."""
    assert BREAKS.keys() == {code for code, severity in CODES.items() if severity == STOP}


@pytest.mark.parametrize("code", BREAKS)
def test_a_broken_copy_is_stopped(cars, code):
    """The copy broken in this one way shows this stop."""
    how, deed = BREAKS[code]
    deed(cars)
    assert code in _stops(cars), how
