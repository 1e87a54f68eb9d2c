"""A measured impedance and what was fitted to it, on one set of axes: a driver, a finished box."""

from __future__ import annotations

import numpy as np
from django.utils.translation import gettext as _

from jobs import units
from jobs.design.box.figures import FREQUENCIES, Floats
from jobs.design.box.finished_box import FinishedBox
from jobs.design.box.measured_driver import SweepResult, fitted_impedance
from jobs.drawings.pencil.axis import Axis
from jobs.drawings.pencil.chart import Chart, Marker, Series
from jobs.drawings.pencil.chart_picture import ChartPicture, picture

# More points than a screen is wide say nothing.
MOST_POINTS = 600


def sweep_chart(result: SweepResult) -> ChartPicture | None:
    """Draw what was measured, pale, under what was fitted; the second sweep beside it."""
    if result.measured is None or result.fit is None:
        return None
    factor, unit = units.drawn_in("resistance")
    title = _("Impedance, measured and fitted")
    pairs = [(_("fitted curve"), _("measured"), result.measured, result.fit)]
    if result.second is not None and result.second_fit is not None:
        pairs.append((_("second, fitted"), _("second, measured"), result.second, result.second_fit))
    series = []
    for fitted_name, measured_name, sweep, fit in pairs:
        step = max(1, len(sweep.frequency) // MOST_POINTS)
        shown = slice(None, None, step)
        f = sweep.frequency[shown]
        fitted = fitted_impedance(fit, f)
        series.append(Series(name=fitted_name, x=f.tolist(), y=(fitted * factor).tolist()))
        read = sweep.magnitude[shown] * factor
        series.append(Series(name=measured_name, x=f.tolist(), y=read.tolist(), ghost=True))
    lowest = min(float(sweep.frequency[0]) for _f, _m, sweep, _fit in pairs)
    highest = max(float(sweep.frequency[-1]) for _f, _m, sweep, _fit in pairs)
    top = max(float(np.max(curve.y)) for curve in series)
    spec = Chart(
        key=f"sweep{result.record.pk or 'new'}",
        title=title,
        description=_("%(title)s from %(low)s to %(high)s.")
        % {
            "title": title,
            "low": units.show(lowest, "frequency"),
            "high": units.show(highest, "frequency"),
        },
        x=Axis(label=_("frequency"), unit="Hz", low=lowest, high=highest, log=True),
        y=Axis(label=_("impedance"), unit=unit, low=0.0, high=top * 1.1),
        series=series,
        markers=[
            Marker(x=fit.fs, words=f"fs {units.show(fit.fs, 'frequency')}")
            for _f, _m, _sweep, fit in pairs[:1]
        ],
    )
    return picture(spec)


def finished_charts(finished: FinishedBox) -> list[ChartPicture]:
    """Draw what was measured of a finished box under the solved ones, and how both boxes play."""
    measured, drawn, as_found = finished.measured, finished.drawn, finished.as_found
    if measured is None or drawn is None or as_found is None:
        return []
    return [
        picture(_impedances(finished, measured.frequency, measured.magnitude)),
        picture(_levels(finished)),
    ]


def _impedances(finished: FinishedBox, f: Floats, magnitude: Floats) -> Chart:
    assert finished.drawn is not None
    assert finished.as_found is not None
    assert finished.fit is not None
    factor, unit = units.drawn_in("resistance")
    heard = f <= float(FREQUENCIES[-1])
    f, magnitude = f[heard], magnitude[heard]
    step = slice(None, None, max(1, len(f) // MOST_POINTS))
    series = [
        _over(name, FREQUENCIES, np.abs(solved.impedance) * factor)
        for name, solved in ((_("as found"), finished.as_found), (_("as drawn"), finished.drawn))
    ]
    series.append(
        Series(
            name=_("measured"),
            x=f[step].tolist(),
            y=(magnitude[step] * factor).tolist(),
            ghost=True,
        )
    )
    top = max(float(np.max(curve.y)) for curve in series)
    at = units.show(finished.fit.resonance, "frequency")
    return Chart(
        key=f"finished{finished.record.pk or 'new'}-impedance",
        title=_("Impedance of the finished box over the solved one"),
        description=_("%(title)s from 10 to 500 Hz.")
        % {"title": _("Impedance of the finished box over the solved one")},
        x=Axis(label=_("frequency"), unit="Hz", low=10, high=500, log=True),
        y=Axis(label=_("impedance"), unit=unit, low=0.0, high=top * 1.1),
        series=series,
        markers=[Marker(x=finished.fit.resonance, words=_("found %(f)s") % {"f": at})],
    )


def _levels(finished: FinishedBox) -> Chart:
    assert finished.drawn is not None
    assert finished.as_found is not None
    pairs = ((_("as found"), finished.as_found), (_("as drawn"), finished.drawn))
    series = [_over(name, FREQUENCIES, solved.spl) for name, solved in pairs]
    top = float(5 * np.ceil((max(max(curve.y) for curve in series) + 2) / 5))
    title = _("Level at 1 m, half space, all at %(voltage)s") % {
        "voltage": units.show(finished.result.voltage, "voltage")
    }
    return Chart(
        key=f"finished{finished.record.pk or 'new'}-level",
        title=title,
        description=_("%(title)s from 10 to 500 Hz.") % {"title": title},
        x=Axis(label=_("frequency"), unit="Hz", low=10, high=500, log=True),
        y=Axis(label=_("level"), unit="dB", low=top - 45, high=top),
        series=series,
    )


def _over(name: str, f: Floats, values: Floats) -> Series:
    return Series(name=name, x=f.tolist(), y=values.tolist())
