"""The pictures of boxes side by side: each a set of axes that all of them share."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Literal

import numpy as np
from django.utils.translation import gettext as _

from jobs import units
from jobs.design.box.cabin import Cabin
from jobs.design.box.compare import Comparison
from jobs.design.box.figures import Floats
from jobs.design.box.targets import Answer, Target
from jobs.design.box.wider_targets import Trade
from jobs.drawings.pencil.axis import Axis
from jobs.drawings.pencil.chart import Chart, Limit, Marker, Series
from jobs.drawings.pencil.chart_picture import ChartPicture, picture

Size = Literal["screen", "half"]


def comparison_charts(comparison: Comparison, size: Size = "screen") -> list[ChartPicture]:
    """Draw level, travel, the largest clean level, and what the cabin makes of the level."""
    if not comparison.candidates:
        return []
    specs = [_level(comparison), _travel(comparison)]
    specs += (
        [_loud(comparison)] if any(candidate.loud for candidate in comparison.candidates) else []
    )
    specs += [_in_cabin(comparison)] if comparison.cabin.is_known else []
    return [picture(replace(spec, size=size)) for spec in specs]


def cabin_chart(key: str, frequencies: Floats, spl: Floats, cabin: Cabin) -> ChartPicture:
    """Draw one box in a half space, and its bound or its measured curve in the cabin."""
    half_space = Series(name=_("half space"), x=frequencies.tolist(), y=spl.tolist())
    series = [half_space, _cabin_series(cabin, spl, cabin_word(cabin))]
    spec = _chart(f"{key}-cabin", cabin_title(cabin), _levels(series), series, cabin=cabin)
    return picture(spec)


def target_chart(key: str, answer: Answer) -> ChartPicture:
    """Draw the level of a box as it is and of the box that meets its target."""
    drawn = [(_("with the target"), answer.then), (_("as it is"), answer.now)]
    series = [
        _series(name, response.frequencies, response.spl) for name, response in drawn if response
    ]
    voltage = {"voltage": units.show(answer.voltage, "voltage")}
    title = _("Level at 1 m, half space, all at %(voltage)s") % voltage
    spec = _chart(f"{key}-level", title, _levels(series), series)
    return picture(spec)


def trade_chart(key: str, trade: Trade, target: Target) -> ChartPicture:
    """Draw litres against level: what more of them, or fewer, would give."""
    loudest = trade.loudest
    factor, unit = units.drawn_in("volume")
    x = (loudest.volumes * factor).tolist()
    y = loudest.levels.tolist()
    at = float(loudest.box.volume)
    title = _("Most level from %(low)s to %(high)s against net litres") % {
        "low": units.show(target.low, "frequency"),
        "high": units.show(target.high, "frequency"),
    }
    spec = Chart(
        key=f"{key}-trade",
        title=title,
        description=title + ".",
        x=Axis(label=_("net volume"), unit=unit, low=x[0], high=x[-1]),
        y=Axis(
            label=_("level"), unit="dB",
            low=float(np.floor(min(y) - 1)), high=float(np.ceil(max(y) + 1)),
        ),
        series=[Series(name=_("best of each"), x=x, y=y)],
        markers=[Marker(x=at * factor, words=units.show(at, "volume"))],
    )  # fmt: skip
    return picture(spec)


def cabin_title(cabin: Cabin) -> str:
    """Name the chart by what it can say: a bound, or one measurement."""
    if cabin.curve:
        return _("In this cabin, by the curve measured")
    return _("In this cabin, at most: an upper bound")


def cabin_word(cabin: Cabin) -> str:
    """Name a curve in the cabin."""
    return _("with the curve measured") if cabin.curve else _("upper bound")


def _level(comparison: Comparison) -> Chart:
    series = [
        _series(candidate.name, candidate.played.frequencies, candidate.played.spl)
        for candidate in comparison.candidates
    ]
    title = _("Level at 1 m, half space, all at %(voltage)s") % _voltage(comparison)
    return _chart("compare-level", title, _levels(series), series)


def _travel(comparison: Comparison) -> Chart:
    factor, unit = units.drawn_in("length")
    series = [
        _series(candidate.name, candidate.played.frequencies, candidate.played.excursion * factor)
        for candidate in comparison.candidates
    ]
    by_limit: dict[float, list[str]] = {}
    for candidate in comparison.candidates:
        if (xmax := candidate.played.driver.xmax) is not None:
            by_limit.setdefault(float(xmax) * factor, []).append(candidate.letter)
    shared = len(by_limit) == 1 and len(comparison.candidates) == len(*by_limit.values())
    limits = [
        Limit(value=value, words="Xmax" if shared else f"Xmax {', '.join(letters)}")
        for value, letters in by_limit.items()
    ]
    highest = max(
        max(max(curve.y) for curve in series) * 1.1, *[limit.value * 1.15 for limit in limits], 0
    )
    axis = Axis(label=_("travel"), unit=unit, low=0.0, high=highest)
    title = _("Cone travel, one way, all at %(voltage)s") % _voltage(comparison)
    return _chart("compare-travel", title, axis, series, limits=limits)


def _loud(comparison: Comparison) -> Chart:
    series = [
        _series(candidate.name, candidate.loud.frequencies, candidate.loud.spl)
        for candidate in comparison.candidates
        if candidate.loud
    ]
    title = _("Largest clean level, each with its own amplifier")
    return _chart("compare-loud", title, _levels(series), series)


def _in_cabin(comparison: Comparison) -> Chart:
    series = [
        _cabin_series(comparison.cabin, candidate.played.spl, candidate.name)
        for candidate in comparison.candidates
    ]
    title = f"{cabin_title(comparison.cabin)}, {units.show(comparison.voltage, 'voltage')}"
    return _chart("compare-cabin", title, _levels(series), series, cabin=comparison.cabin)


def _voltage(comparison: Comparison) -> dict[str, str]:
    return {"voltage": units.show(comparison.voltage, "voltage")}


def _series(name: str, frequencies: Floats, values: Floats) -> Series:
    return Series(name=name, x=frequencies.tolist(), y=values.tolist())


def _cabin_series(cabin: Cabin, spl: Floats, name: str) -> Series:
    return Series(
        name=name,
        x=cabin.frequencies.tolist(),
        y=cabin.level(spl).tolist(),
        bound=cabin.bound is not None,
    )


def _levels(series: Sequence[Series]) -> Axis:
    """Forty-five decibels below the highest: below that nothing is heard of a box."""
    highest = max(max(curve.y) for curve in series)
    top = float(5 * np.ceil((highest + 2) / 5))
    return Axis(label=_("level"), unit="dB", low=top - 45, high=top)


def _chart(
    key: str,
    title: str,
    y: Axis,
    series: Sequence[Series],
    *,
    limits: Sequence[Limit] = (),
    cabin: Cabin | None = None,
) -> Chart:
    bound = cabin.bound if cabin else None
    markers = []
    if bound:
        at = units.show(bound.first_mode, "frequency")
        words = _("first standing wave %(f)s") % {"f": at}
        markers = [Marker(x=bound.first_mode, words=words)]
    return Chart(
        key=key,
        title=title,
        description=_("%(title)s from 10 to 500 Hz.") % {"title": title},
        x=Axis(label=_("frequency"), unit="Hz", low=10, high=500, log=True),
        y=y,
        series=series,
        limits=limits,
        markers=markers,
    )
