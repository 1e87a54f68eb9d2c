"""A box study says what the calculators say, and puts what stands in the way into words."""

from __future__ import annotations

import math

import numpy as np
import pytest

from acoustics.air.modes import profile_frequencies
from acoustics.circuit.solver import sweep
from acoustics.circuit.tolerance_bands import spread
from jobs.design.box.remembered import SPREAD_FREQUENCIES
from jobs.design.box.study import DOOR_FREQUENCIES, study
from jobs.design.job.whole import load, work_out
from jobs.models import Box, Job

pytestmark = pytest.mark.django_db


def _result(job: Job, pk: int):
    return work_out(load(job)).saved_box(pk)


def _new(job: Job, **changes):
    """Work out a box of forty litres with the driver of the job's first one; figures invented."""
    first = job.boxes.first()
    given = {"name": "invented", "driver": first.driver, "wanted_volume": 0.04, **changes}
    return _result(job, Box.objects.create(job=job, **given).pk)


def test_the_bands_are_those_of_the_calculator_and_hold_the_figures(hatchback):
    """Every figure as drawn lies inside its own band, and the band is the calculator's own."""
    result = _result(hatchback.job, hatchback.box.pk)
    made = study(result)
    again = spread(
        driver=result.driver,
        box=result.load,
        frequencies=SPREAD_FREQUENCIES,
        voltage=result.voltage,
        series_resistance=result.feed.series_resistance,
        filters=result.feed.filters,
    )
    assert np.array_equal(made.bands.spl.high, again.spl.high)
    assert len(made.figures) >= 4
    for one in made.figures:
        assert one.low < one.value < one.high, one.label


@pytest.mark.parametrize(
    ("fields", "ports"),
    [
        (
            {"kind": "vented", "second_port_diameter": 0.04, "second_port_length": 0.15},
            ["fastest air in the port", "fastest air in the second port"],
        ),
        (
            {
                "kind": "band_pass_6", "front_volume": 0.03, "rear_port_diameter": 0.07,
                "rear_port_length": 0.2,
            },
            ["fastest air in the rear port", "fastest air in the front port"],
        ),
    ],
    ids=["two unlike", "sixth order"],
)  # fmt: skip
def test_each_port_lies_in_its_own_band(hatchback, fields, ports):
    """Of unlike ports each has its own figure and its own band, not that of the faster one."""
    made = study(_new(hatchback.job, port_diameter=0.08, port_length=0.25, **fields))
    speeds = [figure for figure in made.figures if figure.kind == "speed"]
    assert [figure.label.partition(", at")[0] for figure in speeds] == ports
    for figure in speeds:
        assert figure.low < figure.value < figure.high, figure.label


def test_the_largest_clean_level_reaches_a_limit_and_passes_none(hatchback):
    """Played at its clean voltage the box reaches the binding limit and stays below the rest."""
    made = study(_new(hatchback.job, kind="sealed"))
    driver = made.alone.driver
    for k in (0, 60, 150, 239):
        at = sweep(
            driver=driver,
            box=made.alone.box,
            frequencies=[made.loud.frequencies[k]],
            voltage=float(made.loud.voltage[k]),
        )
        heat = abs(at.voltage / at.impedance[0]) ** 2 * driver.re / driver.power_rating
        used = {"excursion": at.excursion[0] / driver.xmax, "heat": heat}
        assert used[str(made.loud.binding[k])] == pytest.approx(1.0)
        assert max(used.values()) <= 1.0 + 1e-9


def test_ranges_cover_all_frequencies_once(hatchback):
    """The ranges run from the first frequency to the last and each begins where one ended."""
    made = study(_new(hatchback.job, kind="sealed"))
    assert (made.ranges[0].low, made.ranges[-1].high) == (10.0, pytest.approx(500.0))
    f = list(made.loud.frequencies)
    for before, after in zip(made.ranges, made.ranges[1:], strict=False):
        assert f.index(after.low) == f.index(before.high) + 1
    assert "the amplifier's voltage" in made.not_counted


def test_the_high_pass_keeps_the_cone_within_its_travel(hatchback):
    """Too loud for its cone, the box gets the lowest corner that keeps it at Xmax."""
    made = study(_new(hatchback.job, kind="sealed", test_voltage=60.0))
    xmax = made.alone.driver.xmax
    assert made.alone.excursion.max() > xmax
    # A fourth-order Butterworth, from its definition: |H|² = 1 / (1 + (fc/f)^8).
    gain = 1 / np.sqrt(1 + (made.high_pass.frequency / made.alone.frequencies) ** 8)
    assert (made.alone.excursion * gain).max() == pytest.approx(xmax)
    quiet = study(_new(hatchback.job, kind="sealed", test_voltage=1.0))
    assert quiet.high_pass is None
    assert "high_pass" not in quiet.troubles


def test_standing_waves_are_those_between_the_inner_walls(hatchback):
    """A square box rings where half a wave fits its longest inner side: f = c / 2 L."""
    job = hatchback.job
    wood = hatchback.box.material
    result = _new(job, kind="sealed", width=0.6, height=0.4, depth=0.35, material=wood)
    made = study(result)
    # Rooms: f = c/2 · n/L, Morse & Ingard § 9.5; c = 343.2 m/s at 20 °C.
    expected = 343.2 / 2 / (0.6 - 2 * wood.thickness)
    assert made.modes.modes.frequencies[0] == pytest.approx(expected)
    assert (made.result.low_pass, made.result.used_up_to) == (None, None)
    # Nobody said how high it plays: the wave is named, and nothing is said of doing or not doing.
    assert [one.code for one in made.findings if "standing" in one.code] == []
    assert "band-top-unknown" in [one.code for one in made.findings]
    assert [one.code for one in made.findings if one.code.startswith("box-shape")] == []
    sloped = study(_result(job, hatchback.box.pk))
    flat = profile_frequencies(sloped.result.wood.carcass.air_profile.points, count=2)
    assert flat[1] >= sloped.modes.modes.frequencies[0] - 1e-9
    assert any(one.code.startswith("box-shape") for one in sloped.findings)
    # Its low-pass of 24 dB an octave has taken 24 dB one octave up.
    channel = sloped.result.box.channel
    assert channel.lowpass_shape.endswith("24")
    assert sloped.result.used_up_to == pytest.approx(2 * channel.lowpass_frequency)


def test_a_door_shows_three_fates_or_says_what_is_missing(hatchback):
    """With the factory driver known the fates stand side by side; without it, it is named."""
    job = hatchback.job
    without = study(_new(job, kind="door", ql=3.0))
    assert without.door is None
    assert "the factory driver" in without.troubles["door"]
    item = hatchback.sub
    made = study(_new(job, kind="door", ql=3.0, radiator=item))
    fates = dict(made.door.differences)
    assert [f for f, _d in fates["left open"]] == list(DOOR_FREQUENCIES)
    # An open hole below its resonance lets the rear wave cancel the front one.
    assert fates["left open"][0][1] < -6
    # Far above the resonance of the old cone it stands still like a plate.
    unplugged = fates["factory driver left in, unplugged"]
    assert abs(unplugged[-1][1]) < 1
    part = item.part.driver
    part.vas = part.cms = part.fs = None
    part.save()
    assert study(_new(job, kind="door", ql=3.0, radiator=item)) is None


@pytest.mark.parametrize(
    "changes",
    [
        {"kind": "infinite_baffle"},
        {"kind": "sealed", "wanted_volume": 1e-6},
        {"kind": "sealed", "wanted_volume": 100.0},
        {"kind": "vented", "port_diameter": 0.1, "port_length": 0.2},
        {"kind": "band_pass_4", "front_volume": 0.02, "port_diameter": 0.1, "port_length": 0.2},
        {"kind": "vented"},
        {"kind": "sealed", "driver": None},
    ],
    ids=lambda changes: "-".join(map(str, changes.values())),
)
def test_no_box_breaks_the_study(hatchback, changes):
    """Whatever the kind and size, there is a study with words, or none at all."""
    made = study(_new(hatchback.job, **changes))
    if made is None:
        return
    for part in ("bands", "loud"):
        assert (getattr(made, part) is None) == (part in made.troubles)
    assert all(math.isfinite(one.low) for one in made.figures if one.low is not None)


def test_nothing_known_of_a_limit_is_said(hatchback):
    """Without Xmax the high-pass is open and the missing figure is named."""
    job = hatchback.job
    part = hatchback.sub.part.driver
    part.xmax = None
    part.save()
    made = study(_new(job, kind="sealed"))
    assert made.high_pass is None
    assert "Xmax" in made.troubles["high_pass"]
    assert "cone travel" in made.not_counted
