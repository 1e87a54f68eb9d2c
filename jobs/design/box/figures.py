"""The curves and figures of a box that was worked out."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt
from django.utils.functional import Promise
from django.utils.text import format_lazy
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from acoustics.circuit.band_pass_targets import band_edges
from acoustics.circuit.solver import Sweep
from acoustics.driver.heat import heated
from acoustics.enclosure import boxes as kinds
from acoustics.enclosure.band_pass import BandPass
from acoustics.enclosure.closed_box import resonance_and_q
from acoustics.enclosure.openings import Vent
from acoustics.enclosure.port import Port
from acoustics.errors import AcousticsError
from jobs import units
from jobs.design.box.channel_feed import NOTHING, Feed
from jobs.design.carcass.carcass import Wood
from jobs.design.carcass.moulded import Shell

Floats = npt.NDArray[np.float64]

FREQUENCIES: Floats = np.geomspace(10.0, 500.0, 240)

SMALL = "R. H. Small, JAES 20 (1972) 383, 798; JAES 21 (1973) 363"
CUT_LIST = _("sum over the cut list")
CABLE = _("speaker run of the channel; not known counts as none, where the cone moves most")
SOLVED = _("circuit of driver and box, solved at each frequency")
HELMHOLTZ = format_lazy("{}; {}", _("Helmholtz resonance"), "Rayleigh, Theory of Sound II, § 304")
REYNOLDS = format_lazy("{}; {}", _("ρ v d / η, d = 4 area / rim"), _("air at 20 °C"))

PIPE = format_lazy(
    "{}; {}", _("c/(2 Leff), open at both ends"), "Rayleigh, Theory of Sound II, § 255"
)
# xgettext:no-python-format
HOT_COIL = _("copper, 0.393 % per kelvin; 100 K is common practice, no source")

# Curves the channel's filters change; what the amplifier sees they leave alone.
SHAPED = ("spl", "excursion", "port_speed", "radiator_excursion")

# name -> (what it is called, where the number comes from)
NAMES: dict[str, tuple[str | Promise, str | Promise]] = {
    "net_volume": (_("net volume"), CUT_LIST),
    "moulded_net": (_("net volume"), _("as measured, less skin, driver and port")),
    "measured_volume": (_("volume as measured"), _("mean of the fills, or Simpson's rule")),
    "taken_by_skin": (_("taken by the skin"), _("surface times thickness, less its bend")),
    "shell_driver": (
        _("taken by the driver"),
        _("the driver's data sheet, or motor and basket as solids; hole closed flush at the fill"),
    ),
    "shell_port": (_("taken by the port"), _("outer section times its length")),
    "litres_error": (
        _("the litres are sure within ±"),
        _("95 %: Student's t of the fills, or how far the rules for areas lie apart"),
    ),
    "litres_spread": (_("spread of the fills"), _("standard deviation")),
    "rear_volume": (_("net volume of the rear chamber"), CUT_LIST),
    "front_volume": (_("front chamber"), CUT_LIST),
    "shut_off": (_("behind closed plates, not counted"), CUT_LIST),
    "gross_volume": (_("inside of the bare panels"), CUT_LIST),
    "taken_by_driver": (
        _("taken by the driver"),
        _("the driver's data sheet, or motor and basket as solids; less the hole in the wood"),
    ),
    "taken_by_port": (_("taken by the port"), CUT_LIST),
    "taken_by_braces": (_("taken by braces and layers"), CUT_LIST),
    "fc": (_("resonance in the box, fc"), SMALL),
    "qtc": (_("Qtc, losses included"), SMALL),
    "fb": (_("tuning, fb"), HELMHOLTZ),
    "port_length": (_("port length"), _("tuning less both end corrections")),
    "qtc_hot": (_("Qtc with the coil 100 K hotter"), HOT_COIL),
    "rear_tuning": (_("tuning of the rear chamber"), HELMHOLTZ),
    "rear_fc": (_("resonance with the rear chamber, fc"), SMALL),
    "front_tuning": (_("tuning of the front chamber"), HELMHOLTZ),
    "pipe_resonance": (_("the port rings as a pipe at"), PIPE),
    "second_pipe_resonance": (_("the second port rings as a pipe at"), PIPE),
    "rear_pipe_resonance": (_("the rear port rings as a pipe at"), PIPE),
    "front_pipe_resonance": (_("the front port rings as a pipe at"), PIPE),
    "band_low": (_("band from, 3 dB down"), SOLVED),
    "band_high": (_("band up to, 3 dB down"), SOLVED),
    "band_sag": (_("deepest sag inside the band"), SOLVED),
    "f3": (_("3 dB down at"), SOLVED),
    "f6": (_("6 dB down at"), SOLVED),
    "f10": (_("10 dB down at"), SOLVED),
    "largest_excursion": (_("largest cone travel"), SOLVED),
    "lowest_impedance": (_("lowest impedance"), SOLVED),
    "unfiltered_excursion": (_("the same without the channel's filters"), SOLVED),
    "radiator_excursion": (_("largest travel of the passive radiator"), SOLVED),
    "largest_port_speed": (_("fastest air in the port"), SOLVED),
    "second_port_speed": (_("fastest air in the second port"), SOLVED),
    "rear_port_speed": (_("fastest air in the rear port"), SOLVED),
    "front_port_speed": (_("fastest air in the front port"), SOLVED),
    "hole_speed": (_("fastest air in the open hole"), SOLVED),
    "reynolds_number": (
        _("Reynolds number at that speed"),
        REYNOLDS,
    ),
    "cable_resistance": (_("cable, there and back"), CABLE),
    "mass": (_("mass with what is in it, as far as known"), CUT_LIST),
}


@dataclass(frozen=True, kw_only=True)
class Curve:
    """One curve over frequency; `kind` says how its values are shown."""

    name: str
    kind: str
    frequencies: Floats
    values: Floats


@dataclass(frozen=True, kw_only=True)
class Figure:
    """One number and its kind of quantity; its name and source stand in NAMES."""

    name: str
    value: float | None
    kind: str
    # The voltage it was reached at, where it grows with it.
    at: float | None = None

    @property
    def label(self) -> str:
        """What it is called, and the voltage it was reached at."""
        words = str(NAMES[self.name][0])
        if self.at is None:
            return words
        voltage = units.show(self.at, "voltage")
        return gettext("%(figure)s, at %(voltage)s") % {"figure": words, "voltage": voltage}

    @property
    def source(self) -> str:
        """Where the number comes from."""
        return str(NAMES[self.name][1])


def curves_of(solved: Sweep) -> dict[str, Curve]:
    """Return the curves of a sweep by name."""
    impedance = solved.impedance
    every = {
        "spl": ("level", solved.spl),
        "excursion": ("length", solved.excursion),
        "port_speed": ("speed", solved.port_speed),
        "radiator_excursion": ("length", solved.radiator_excursion),
        "impedance": ("resistance", np.abs(impedance)),
        "impedance_phase": ("angle", np.angle(impedance)),
        "group_delay": ("time", solved.group_delay),
    }
    return {
        name: Curve(name=name, kind=kind, frequencies=FREQUENCIES, values=np.asarray(values))
        for name, (kind, values) in every.items()
        if values is not None
    }


def beside(alone: Sweep, played: Sweep, hot: Sweep, *, stated: float) -> dict[str, list[Curve]]:
    """Return what is drawn beside a curve: unfiltered, with a hot coil, at the voltage stated."""
    drawn: dict[str, list[Curve]] = {}
    if played is not alone:
        for name, curve in curves_of(alone).items():
            if name in SHAPED:
                drawn[name] = [replace(curve, name="unfiltered")]
    drawn.setdefault("spl", []).append(
        Curve(name="hot", kind="level", frequencies=FREQUENCIES, values=hot.spl)
    )
    volts = float(np.asarray(alone.voltage))
    if not math.isclose(stated, volts):
        at = alone.spl + 20 * math.log10(stated / volts)
        drawn.setdefault("spl", []).append(
            Curve(name="stated", kind="level", frequencies=FREQUENCIES, values=at)
        )
    return drawn


def _cutoff(solved: Sweep, name: str) -> float | None:
    try:
        return float(getattr(solved, name))
    except AcousticsError:
        return None  # the sweep does not reach that far down


def figures_of(
    alone: Sweep,
    played: Sweep,
    feed: Feed,
    net: float | None,
    wood: Wood | Shell | None,
    port: Port | None,
) -> list[Figure]:
    """List the figures of the box in the order a fabricator asks for them."""
    moulded = isinstance(wood, Shell)
    figures = [Figure(name="moulded_net" if moulded else "net_volume", value=net, kind="volume")]
    if isinstance(wood, Shell):
        figures += _of_shell(wood)
    elif wood:
        volumes, front = wood.carcass.volumes, wood.front_volume
        if front is not None:
            figures.append(Figure(name="front_volume", value=front, kind="volume"))
        if volumes.shut_off - (front or 0.0) > 1e-6:
            dead = volumes.shut_off - (front or 0.0)
            figures.append(Figure(name="shut_off", value=dead, kind="volume"))
        figures += [
            Figure(name="gross_volume", value=volumes.gross, kind="volume"),
            Figure(name="taken_by_driver", value=volumes.parts, kind="volume"),
            Figure(name="taken_by_port", value=volumes.ports, kind="volume"),
            Figure(name="taken_by_braces", value=volumes.braces + volumes.layers, kind="volume"),
        ]
    figures += _resonance(alone, feed)
    if port is not None:
        figures.append(Figure(name="port_length", value=port.length, kind="length"))
    figures += _pipes(alone)
    figures += _edges(alone)
    volts = float(np.asarray(alone.voltage))
    figures.append(
        Figure(
            name="largest_excursion", value=float(played.excursion.max()), kind="length", at=volts
        )
    )
    if played is not alone:
        unfiltered = float(alone.excursion.max())
        figures.append(
            Figure(name="unfiltered_excursion", value=unfiltered, kind="length", at=volts)
        )
    figures += _openings(played, volts)
    lowest = float(abs(alone.impedance).min())
    figures.append(Figure(name="lowest_impedance", value=lowest, kind="resistance"))
    if feed is not NOTHING:
        cable = feed.cable_resistance
        figures.append(Figure(name="cable_resistance", value=cable, kind="resistance"))
    return figures


def _of_shell(moulded: Shell) -> list[Figure]:
    """What was measured, what the skin and the parts leave of it, and how sure that is."""
    figures = [Figure(name="measured_volume", value=moulded.measured.value, kind="volume")]
    if moulded.inside is not moulded.measured:
        skin = moulded.measured.value - moulded.inside.value
        figures.append(Figure(name="taken_by_skin", value=skin, kind="volume"))
    figures += [
        Figure(name="shell_driver", value=moulded.taken_by_parts, kind="volume"),
        Figure(name="shell_port", value=moulded.taken_by_ports, kind="volume"),
        Figure(name="litres_error", value=moulded.inside.error, kind="volume"),
    ]
    if moulded.spread is not None:
        figures.append(Figure(name="litres_spread", value=moulded.spread, kind="volume"))
    return figures


def _resonance(alone: Sweep, feed: Feed) -> list[Figure]:
    """The box's own resonance, and how it is damped."""
    driver, box = alone.driver, alone.box
    if isinstance(box, kinds.Sealed):
        cable = feed.series_resistance
        fc, qtc = resonance_and_q(driver, box, series_resistance=cable)
        _fc, hot = resonance_and_q(heated(driver), box, series_resistance=cable)
        return [
            Figure(name="fc", value=float(fc), kind="frequency"),
            Figure(name="qtc", value=float(qtc), kind="ratio"),
            Figure(name="qtc_hot", value=float(hot), kind="ratio"),
        ]
    if isinstance(box, BandPass):
        rear = "rear_tuning" if isinstance(box.rear, kinds.Vented) else "rear_fc"
        return [
            Figure(name=name, value=float(chamber.resonance(driver)), kind="frequency")
            for name, chamber in ((rear, box.rear), ("front_tuning", box.front))
            if isinstance(chamber, kinds.Sealed | kinds.Vented)
        ]
    if isinstance(box, kinds.Vented | kinds.PassiveRadiatorBox):
        fb = float(box.resonance(driver))
        return [Figure(name="fb", value=fb, kind="frequency")]
    return []


# What a port is called -> the figures of its pipe and of its air.
PORT_FIGURES: dict[str, tuple[str, str]] = {
    "port": ("pipe_resonance", "largest_port_speed"),
    "second port": ("second_pipe_resonance", "second_port_speed"),
    "rear port": ("rear_pipe_resonance", "rear_port_speed"),
    "front port": ("front_pipe_resonance", "front_port_speed"),
    "open hole": ("", "hole_speed"),  # a hole in sheet metal is no pipe
}
PORT_SPEEDS = tuple(speed for _pipe, speed in PORT_FIGURES.values())


def port_names(box: kinds.Box) -> tuple[str, ...]:
    """Say what each port of a box is called, in the order a sweep lists them."""
    if isinstance(box, BandPass):
        sixth = isinstance(box.rear, kinds.Vented)
        return ("rear port", "front port") if sixth else ("port",)
    return ("open hole",) if isinstance(box, kinds.Door) else ("port", "second port")


def port_speeds(solved: Sweep) -> list[tuple[str, float]]:
    """Fastest air in each port, by what the port is called."""
    names = port_names(solved.box)
    return [
        (name, float(speed.max())) for name, speed in zip(names, solved.port_speeds, strict=False)
    ]


def pipe_resonances(solved: Sweep) -> list[tuple[str, float]]:
    """First resonance of each port as a pipe open at both ends, by what the port is called."""
    vents = [flow.opening for flow in solved.load.flows if isinstance(flow.opening, Vent)]
    c = solved.air.speed_of_sound
    return [
        (name, float(c / (2 * vent.effective_length)))
        for name, vent in zip(port_names(solved.box), vents, strict=False)
        if PORT_FIGURES[name][0]
    ]


def _pipes(alone: Sweep) -> list[Figure]:
    return [
        Figure(name=PORT_FIGURES[name][0], value=rings, kind="frequency")
        for name, rings in pipe_resonances(alone)
    ]


def _edges(alone: Sweep) -> list[Figure]:
    """Where the response gives out: below, or of a band-pass on both sides."""
    if not isinstance(alone.box, BandPass):
        return [
            Figure(name=name, value=_cutoff(alone, name), kind="frequency")
            for name in ("f3", "f6", "f10")
        ]
    try:
        low, high = band_edges(alone)
    except AcousticsError:
        low, high = None, None  # the sweep does not reach that far
    return [
        Figure(name="band_low", value=low, kind="frequency"),
        Figure(name="band_high", value=high, kind="frequency"),
    ]


def _openings(played: Sweep, volts: float) -> list[Figure]:
    """How hard a port or a passive radiator works."""
    figures = []
    if played.radiator_excursion is not None:
        largest = float(played.radiator_excursion.max())
        figures.append(Figure(name="radiator_excursion", value=largest, kind="length", at=volts))
    if played.port_speeds and played.reynolds_number is not None:
        reynolds = float(played.reynolds_number.max())
        figures += [
            Figure(name=PORT_FIGURES[name][1], value=fastest, kind="speed", at=volts)
            for name, fastest in port_speeds(played)
        ]
        figures.append(Figure(name="reynolds_number", value=reynolds, kind="count"))
    return figures
