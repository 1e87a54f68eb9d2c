"""A catalogue driver, as one equivalent driver the solver understands."""

from __future__ import annotations

from typing import Any

from acoustics.carcass.contents import RoundPart
from acoustics.combination import combine, wire_coils
from acoustics.completion import CompletedDriver, complete_driver
from acoustics.driver import Driver as AcousticDriver
from acoustics.openings import Radiator
from jobs.models import Box, Channel, Driver

_FIGURES = ("fs", "qts", "qes", "qms", "vas", "cms", "mms", "rms", "bl", "sd", "xmax")


def completed(part: Driver) -> CompletedDriver:
    """Complete the catalogue's figures; two coils count as connected in series.

    The catalogue holds Re and Le of one coil, and the rest with every coil driven.
    """
    figures: dict[str, Any] = {name: getattr(part, name) for name in _FIGURES}
    coils = part.coils
    return complete_driver(
        **figures,
        re=None if part.re is None else part.re * coils,
        # Turns add up, and inductance goes with their square.
        le=(part.le or 0.0) * coils**2,
        power_rating=part.power,
    )


def equivalent(part: Driver, box: Box, channel: Channel | None) -> AcousticDriver:
    """Return the drivers of a box as one, connected as the channel says."""
    driver = completed(part).driver
    if part.coils == 2:
        wired = channel.coil_connection if channel else Channel.Connection.PARALLEL
        driver = wire_coils(
            driver, stated="series", wired="series" if wired == "series" else "parallel"
        )
    count = box.driver_count
    in_series = channel is not None and channel.connection == Channel.Connection.SERIES
    return combine(
        driver,
        series=count if in_series else 1,
        parallel=1 if in_series else count,
        isobaric=box.isobaric,
    )


def radiator(part: Driver, box: Box) -> Radiator:
    """Return a passive radiator: a catalogue driver without a motor."""
    cone = complete_driver(
        fs=part.fs,
        qms=part.qms,
        vas=part.vas,
        sd=part.sd,
        mms=part.mms,
        cms=part.cms,
        rms=part.rms,
        # A radiator has no coil; these stand in so that the mechanical set can be completed.
        re=1.0,
        qes=1e6,
        xmax=part.xmax,
    ).driver
    return Radiator(
        sd=cone.sd,
        mms=cone.mms,
        cms=cone.cms,
        rms=cone.rms,
        added_mass=box.radiator_added_mass,
        count=box.radiator_count,
        xmax=part.xmax,
    )


def body(part: Driver, name: str) -> RoundPart | None:
    """Return the driver as a solid, or None while its dimensions are not known."""
    if (
        part.outer_diameter is None
        or part.cutout_diameter is None
        or part.depth is None
        or part.magnet_diameter is None
    ):
        return None
    motor_depth = part.magnet_height or 0.0
    return RoundPart(
        name=name,
        cutout_diameter=part.cutout_diameter,
        flange_diameter=part.outer_diameter,
        basket_depth=part.depth - motor_depth,
        motor_diameter=part.magnet_diameter,
        motor_depth=motor_depth,
        bolt_circle_diameter=part.bolt_circle,
        displacement=part.displacement,
        mass=part.mass,
    )
