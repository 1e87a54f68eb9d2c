"""The pictures of a box, for page and sheet alike: its views and its curves."""

from __future__ import annotations

from collections.abc import Container, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from django.utils.safestring import SafeString
from django.utils.translation import gettext as _

from jobs import units
from jobs.design.box.boxes import BoxResult, Curve
from jobs.design.box.checks import PORT_SPEED
from jobs.drawings.pencil.axis import Axis
from jobs.drawings.pencil.chart import Chart, Limit, Marker, Series
from jobs.drawings.pencil.chart_picture import ChartPicture, picture
from jobs.drawings.wood.wood_pictures import views

# How many curves stand in sight before the rest is unfolded.
IN_SIGHT = 2


@dataclass(frozen=True, kw_only=True)
class BoxPictures:
    """Everything drawn of one box, each when it is asked for."""

    result: BoxResult
    ghosts: Sequence[BoxResult]
    names: Sequence[str]

    @property
    def _key(self) -> str:
        return f"box{self.result.box.pk or 'new'}"

    @cached_property
    def views(self) -> Sequence[tuple[str, SafeString]]:
        """The wood from all sides."""
        return views(self.result, self._key)

    @cached_property
    def first_charts(self) -> list[ChartPicture]:
        """The curves that are looked at most."""
        return self._drawn(self.names[:IN_SIGHT])

    @cached_property
    def further_charts(self) -> list[ChartPicture]:
        """All other curves."""
        return self._drawn(self.names[IN_SIGHT:])

    @property
    def charts(self) -> list[ChartPicture]:
        """Every curve."""
        return [*self.first_charts, *self.further_charts]

    def _drawn(self, names: Sequence[str]) -> list[ChartPicture]:
        return [_chart(self._key, name, [self.result], self.ghosts) for name in names]


def curve_titles() -> dict[str, str]:
    """Name each curve of a box."""
    return {
        "spl": _("Level at 1 m, half space"),
        "excursion": _("Cone travel, one way"),
        "port_speed": _("Air speed in the port"),
        "radiator_excursion": _("Passive radiator travel, one way"),
        "impedance": _("Impedance at the amplifier, cable included"),
        "impedance_phase": _("Phase of that impedance"),
        "group_delay": _("Group delay"),
    }


def box_pictures(
    result: BoxResult,
    saved: BoxResult | None = None,
    *,
    without: Container[str] = (),
) -> BoxPictures:
    """Draw a box: its views when it has wood, its curves when it could be worked out."""
    names = [name for name in result.curves if name not in without]
    return BoxPictures(result=result, ghosts=[saved] if saved else [], names=names)


def _chart(
    key: str, name: str, results: Sequence[BoxResult], ghosts: Sequence[BoxResult]
) -> ChartPicture:
    first = results[0].curves[name]
    factor, unit = units.drawn_in(first.kind)
    title = curve_titles()[name]
    series = [_series(_main(name, result), result.curves[name], factor) for result in results]
    series += [
        _series(beside_words(other, result), other, factor)
        for result in results
        for other in result.beside.get(name, ())
    ]
    series += [
        _series(_("saved"), result.curves[name], factor, ghost=True)
        for result in ghosts
        if name in result.curves
    ]
    limits = _limits(name, results, factor)
    spec = Chart(
        key=f"{key}-{name}".replace("_", "-"),
        title=title,
        description=_("%(title)s from 10 to 500 Hz at %(voltage)s.")
        % {"title": title, "voltage": units.show(results[0].voltage, "voltage")},
        x=Axis(label=_("frequency"), unit="Hz", low=10, high=500, log=True),
        y=_y_axis(name, unit, series, limits),
        series=series,
        limits=limits,
        markers=_markers(results) if name == "spl" else [],
    )
    return picture(spec)


def _main(name: str, result: BoxResult) -> str:
    """Name the main curve: by its box, or by its filters where it stands beside one without."""
    unfiltered = any(curve.name == "unfiltered" for curve in result.beside.get(name, ()))
    return _("with filters") if unfiltered else result.box.name


def beside_words(curve: Curve, result: BoxResult) -> str:
    """Say what a curve beside the main one is."""
    if curve.name == "unfiltered":
        return _("without filters")
    if curve.name == "hot":
        return _("coil 100 K hotter")
    return _("at %(voltage)s") % {"voltage": units.show(result.box.test_voltage, "voltage")}


def _series(name: str, curve: Curve, factor: float, *, ghost: bool = False) -> Series:
    return Series(
        name=name,
        x=curve.frequencies.tolist(),
        y=(curve.values * factor).tolist(),
        ghost=ghost,
    )


def _limits(name: str, results: Sequence[BoxResult], factor: float) -> list[Limit]:
    """Draw the limits that belong to a curve, where they are known."""
    if name == "excursion" and results[0].driver and results[0].driver.xmax is not None:
        return [Limit(value=float(results[0].driver.xmax) * factor, words="Xmax")]
    if name == "port_speed":
        return [Limit(value=PORT_SPEED * factor, words=_("it chuffs"))]
    return []


def _markers(results: Sequence[BoxResult]) -> list[Marker]:
    """Name the frequencies of a single box."""
    if len(results) > 1:
        return []
    words = {"fc": "fc", "fb": "fb", "f3": "f3"}
    return [
        Marker(
            x=figure.value, words=f"{words[figure.name]} {units.show(figure.value, figure.kind)}"
        )
        for figure in results[0].figures
        if figure.name in words and figure.value is not None
    ]


def _y_axis(name: str, unit: str, series: Sequence[Series], limits: Sequence[Limit]) -> Axis:
    values = np.concatenate([np.asarray(curve.y) for curve in series])
    label = {
        "spl": _("level"),
        "impedance": _("impedance"),
        "impedance_phase": _("phase"),
        "group_delay": _("delay"),
        "port_speed": _("speed"),
    }.get(name, _("travel"))
    if name == "spl":
        top = 5 * np.ceil((values.max() + 2) / 5)
        return Axis(label=label, unit=unit, low=float(top - 45), high=float(top))
    if name == "impedance_phase":
        return Axis(label=label, unit=unit, low=-90.0, high=90.0)
    highest = max([float(values.max()) * 1.1, *[limit.value * 1.15 for limit in limits]])
    return Axis(label=label, unit=unit, low=0.0, high=highest)
