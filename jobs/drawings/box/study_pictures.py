"""The pictures of a box study: bands, the largest clean level, and the three fates of a door."""

from __future__ import annotations

import numpy as np
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from jobs import units
from jobs.design.box.figures import Floats
from jobs.design.box.study import FATES, LIMITS, BoxStudy
from jobs.drawings.pencil.axis import Axis
from jobs.drawings.pencil.chart import Band, Chart, Limit, Series
from jobs.drawings.pencil.chart_picture import ChartPicture, picture

# Said shorter where it names a curve: beside a chart there is no room for the longest word.
SHORT = {"port": gettext_lazy("air in the port")}


def study_charts(study: BoxStudy) -> list[ChartPicture]:
    """Draw whatever could be worked out."""
    drawn = [_level(study), _travel(study)] if study.bands else []
    drawn += [_loud(study)] if study.loud else []
    drawn += [_door(study)] if study.door else []
    return [picture(spec) for spec in drawn]


def _spec(
    study: BoxStudy,
    name: str,
    title: str,
    y: Axis,
    series: list[Series],
    bands: list[Band] | None = None,
    limits: list[Limit] | None = None,
) -> Chart:
    return Chart(
        key=f"study{study.result.box.pk or 'new'}-{name}",
        title=title,
        description=_("%(title)s from 10 to 500 Hz.") % {"title": title},
        x=Axis(label=_("frequency"), unit="Hz", low=10, high=500, log=True),
        y=y,
        series=series,
        bands=bands or [],
        limits=limits or [],
    )


def _curve(study: BoxStudy, name: str, values: Floats) -> Series:
    return Series(name=name, x=study.alone.frequencies.tolist(), y=values.tolist())


def _three(study: BoxStudy, name: str, factor: float) -> list[Series]:
    """A curve as played, without the channel's filters, and with the high-pass the box needs."""
    series = [_curve(study, _("as played"), getattr(study.played, name) * factor)]
    if study.has_filters:
        alone = getattr(study.alone, name) * factor
        series.append(_curve(study, _("without filters"), alone))
    if study.high_pass:
        held = getattr(study.high_pass, name) * factor
        series.append(_curve(study, _("high-pass it needs, alone"), held))
    return series


def _level_axis(highest: float) -> Axis:
    top = float(5 * np.ceil((highest + 2) / 5))
    return Axis(label=_("level"), unit="dB", low=top - 45, high=top)


def _level(study: BoxStudy) -> Chart:
    assert study.bands is not None
    x = study.bands.frequencies.tolist()
    low, high = study.bands.spl.low, study.bands.spl.high
    band = Band(name=_("9 in 10"), x=x, low=low.tolist(), high=high.tolist())
    series = _three(study, "spl", 1.0)
    series += [
        _curve(study, _("coil 100 K hotter"), curve.values)
        for curve in study.result.beside.get("spl", ())
        if curve.name == "hot"
    ]
    highest = max(float(high.max()), float(study.alone.spl.max()))
    title = _("Level, and where nine in ten lie")
    return _spec(study, "level", title, _level_axis(highest), series, [band])


def _travel(study: BoxStudy) -> Chart:
    assert study.bands is not None
    factor, unit = units.drawn_in("length")
    excursion = study.bands.excursion
    band = Band(
        name=_("9 in 10"),
        x=study.bands.frequencies.tolist(),
        low=(excursion.low * factor).tolist(),
        high=(excursion.high * factor).tolist(),
    )
    series = _three(study, "excursion", factor)
    xmax = study.alone.driver.xmax
    limits = [] if xmax is None else [Limit(value=float(xmax) * factor, words="Xmax")]
    drawn = [max(curve.y) for curve in series]
    highest = max(
        [float(excursion.high.max()) * factor, *drawn, *[limit.value for limit in limits]]
    )
    axis = Axis(label=_("travel"), unit=unit, low=0.0, high=highest * 1.1)
    title = _("Cone travel, and where nine in ten lie")
    return _spec(study, "travel", title, axis, series, [band], limits)


def _loud(study: BoxStudy) -> Chart:
    assert study.loud is not None
    loud = study.loud
    series = [_curve(study, _("clean"), loud.spl)]
    # What each limit alone would allow; the lowest of them is the clean level.
    for name in dict.fromkeys(str(limit) for limit in loud.binding):
        alone = loud.spl + 20 * np.log10(loud.allowed[name] / loud.voltage)
        series.append(_curve(study, str(SHORT.get(name, LIMITS[name])), alone))
    title = _("Largest clean level")
    return _spec(study, "loud", title, _level_axis(float(study.loud.spl.max())), series)


def _door(study: BoxStudy) -> Chart:
    assert study.door is not None
    levels = study.door.levels
    series = [_curve(study, str(FATES[name]), levels[name]) for name in FATES]
    highest = max(float(level.max()) for level in levels.values())
    title = _("The factory hole, three ways")
    return _spec(study, "door", title, _level_axis(highest), series)
