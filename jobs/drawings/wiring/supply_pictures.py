"""The pictures of a supply: the voltage at an amplifier over one bass note."""

from __future__ import annotations

from django.utils.translation import gettext as _

from jobs import units
from jobs.design.wiring.bass import BEFORE, COMMON_BANK, NOTE_LENGTH, Bass
from jobs.drawings.pencil.axis import Axis, axis_over
from jobs.drawings.pencil.chart import Chart, Limit, Series
from jobs.drawings.pencil.chart_picture import ChartPicture, picture

MILLI = 1e3
TABLE_AT = (-0.01, 0.0, 0.005, 0.01, 0.02, 0.05, 0.1, 0.25)


def note_chart(played: Bass) -> ChartPicture:
    """Draw a note with what is there, and with or without a capacitor bank beside it."""
    common = units.show(COMMON_BANK.capacitance, "capacitance")
    names = {
        "bank": _("with the bank"),
        "bare": _("without a bank"),
        "common": _("with %(bank)s") % {"bank": common},
    }
    series = [
        Series(name=names[key], x=(x * MILLI).tolist(), y=y.tolist())
        for key, (x, y) in played.lines().items()
    ]
    limits = []
    if played.least is not None:
        limits = [Limit(value=played.least, words=_("may switch off"), keep="above")]
    heights = [y for curve in series for y in curve.y] + [limit.value for limit in limits]
    spec = Chart(
        key=f"note{played.node.pk}",
        title=_("Bass note at %(node)s") % {"node": played.node.name},
        description=_("Voltage from just before the note to its end."),
        x=Axis(label=_("time"), unit="ms", low=-BEFORE * MILLI, high=NOTE_LENGTH * MILLI),
        y=axis_over(heights, label=_("voltage"), unit="V"),
        series=series,
        limits=limits,
    )
    return picture(spec, [at * MILLI for at in TABLE_AT])
