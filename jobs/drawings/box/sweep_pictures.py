"""A measured impedance and the driver fitted to it, on one set of axes."""

from __future__ import annotations

import numpy as np
from django.utils.translation import gettext as _

from jobs import units
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
