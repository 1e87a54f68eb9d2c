"""What was measured in one place, drawn on one set of axes."""

from __future__ import annotations

import numpy as np
from django.utils.translation import gettext as _

from jobs.design.setup.measured import Place
from jobs.drawings.pencil.axis import Axis
from jobs.drawings.pencil.chart import Chart, Series
from jobs.drawings.pencil.chart_picture import ChartPicture, picture

TABLE_AT = (20, 31.5, 63, 125, 250, 500, 1000, 2000, 4000, 8000, 16000)
SHOWN = 50.0  # below the highest nothing is drawn [dB]


def place_chart(number: int, place: Place) -> ChartPicture | None:
    """Draw the curves of a place, smoothed over a sixth of an octave."""
    if not place.curves:
        return None
    highest = max(float(curve.level.max()) for curve in place.curves)
    top = float(5 * np.ceil((highest + 2) / 5))
    return picture(
        Chart(
            key=f"measured-{number}",
            title=place.name,
            description=_("Measured levels in %(place)s from 20 Hz to 16 kHz.")
            % {"place": place.name},
            x=Axis(label=_("frequency"), unit="Hz", low=20, high=16_000, log=True),
            y=Axis(label=_("level"), unit="dB", low=top - SHOWN, high=top),
            series=[
                Series(
                    name=curve.name,
                    x=curve.frequency.tolist(),
                    y=np.maximum(curve.level, top - SHOWN - 20.0).tolist(),
                )
                for curve in place.curves
            ],
        ),
        TABLE_AT,
    )
