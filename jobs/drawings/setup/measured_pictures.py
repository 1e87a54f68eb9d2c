"""What was measured in one place, drawn on one set of axes."""

from __future__ import annotations

from collections.abc import Container, Sequence

import numpy as np
from django.utils.translation import gettext as _

from jobs.design.box.figures import Floats
from jobs.design.setup.measured import Drawn, Place
from jobs.drawings.pencil.axis import Axis
from jobs.drawings.pencil.chart import Chart, Series
from jobs.drawings.pencil.chart_picture import ChartPicture, picture
from jobs.models.base import written_day

TABLE_AT = (20, 31.5, 63, 125, 250, 500, 1000, 2000, 4000, 8000, 16000)
SHOWN = 50.0  # below the highest nothing is drawn [dB]


def place_chart(number: int, place: Place, before: Sequence[Drawn] = ()) -> ChartPicture | None:
    """Draw the curves of a place, smoothed; thin, those of the visit before."""
    if not place.curves:
        return None
    words = _("Measured levels in %(place)s from 20 Hz to 16 kHz.") % {"place": place.name}
    curves = [(curve.name, curve.frequency, curve.level) for curve in place.curves]
    ghosts = [
        (f"{curve.name}, {written_day(curve.row.measured_on)}", curve.frequency, curve.level)
        for curve in before
    ]
    thin = {name for name, _frequency, _level in ghosts}
    return levels_chart(f"measured-{number}", place.name, words, [*curves, *ghosts], thin)


def levels_chart(
    key: str,
    title: str,
    description: str,
    curves: Sequence[tuple[str, Floats, Floats]],
    ghosts: Container[str] = (),
) -> ChartPicture:
    """Draw levels by name over their frequencies; ghosts are drawn thin."""
    top = float(5 * np.ceil((max(float(level.max()) for _name, _f, level in curves) + 2) / 5))
    return picture(
        Chart(
            key=key,
            title=title,
            description=description,
            x=Axis(label=_("frequency"), unit="Hz", low=20, high=16_000, log=True),
            y=Axis(label=_("level"), unit="dB", low=top - SHOWN, high=top),
            series=[
                Series(
                    name=name,
                    x=frequency.tolist(),
                    y=np.maximum(level, top - SHOWN - 20.0).tolist(),
                    ghost=name in ghosts,
                )
                for name, frequency, level in curves
            ],
        ),
        TABLE_AT,
    )
