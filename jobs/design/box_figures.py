"""The curves and figures of a box that was worked out."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from acoustics import boxes as kinds
from acoustics.closed_box import resonance_and_q
from acoustics.driver import Driver as AcousticDriver
from acoustics.errors import AcousticsError
from acoustics.port import Port
from acoustics.solver import Sweep
from jobs.design.carcass import Wood

Floats = npt.NDArray[np.float64]

FREQUENCIES: Floats = np.geomspace(10.0, 500.0, 240)

SMALL = "R. H. Small, JAES 20 (1972) 383, 798; JAES 21 (1973) 363"
CUT_LIST = "sum over the cut list"
SOLVED = "circuit of driver and box, solved at each frequency"

# name -> (what it is called, where the number comes from)
NAMES: dict[str, tuple[str | Promise, str]] = {
    "net_volume": (_("net volume"), CUT_LIST),
    "gross_volume": (_("inside of the bare panels"), CUT_LIST),
    "taken_by_driver": (_("taken by the driver"), "driver's sheet, or motor and basket as solids"),
    "taken_by_port": (_("taken by the port"), CUT_LIST),
    "taken_by_braces": (_("taken by braces and layers"), CUT_LIST),
    "fc": (_("resonance in the box, fc"), SMALL),
    "qtc": (_("Qtc, losses included"), SMALL),
    "fb": (_("tuning, fb"), "Helmholtz resonance; Rayleigh, Theory of Sound II, § 304"),
    "port_length": (_("port length"), "tuning less both end corrections"),
    "f3": (_("3 dB down at"), SOLVED),
    "f6": (_("6 dB down at"), SOLVED),
    "f10": (_("10 dB down at"), SOLVED),
    "largest_excursion": (_("largest cone travel"), SOLVED),
    "lowest_impedance": (_("lowest impedance"), SOLVED),
    "largest_port_speed": (_("fastest air in the port"), SOLVED),
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

    @property
    def label(self) -> str:
        """What it is called."""
        return str(NAMES[self.name][0])

    @property
    def source(self) -> str:
        """Where the number comes from."""
        return NAMES[self.name][1]


def curves_of(solved: Sweep) -> dict[str, Curve]:
    def curve(name: str, kind: str, values: Floats | None) -> dict[str, Curve]:
        if values is None:
            return {}
        return {
            name: Curve(name=name, kind=kind, frequencies=FREQUENCIES, values=np.asarray(values))
        }

    return {
        **curve("spl", "level", solved.spl),
        **curve("excursion", "length", solved.excursion),
        **curve("port_speed", "speed", solved.port_speed),
        **curve("radiator_excursion", "length", solved.radiator_excursion),
        **curve("impedance", "resistance", np.abs(solved.impedance)),
        **curve("group_delay", "time", solved.group_delay),
    }


def _cutoff(solved: Sweep, name: str) -> float | None:
    try:
        return float(getattr(solved, name))
    except AcousticsError:
        return None  # the sweep does not reach that far down


def figures_of(
    driver: AcousticDriver,
    enclosure: kinds.Box,
    solved: Sweep,
    net: float | None,
    made: Wood | None,
    port: Port | None,
) -> list[Figure]:
    """List the figures of the box in the order a fabricator asks for them."""
    figures = [Figure(name="net_volume", value=net, kind="volume")]
    if made:
        volumes = made.carcass.volumes
        figures += [
            Figure(name="gross_volume", value=volumes.gross, kind="volume"),
            Figure(name="taken_by_driver", value=volumes.parts, kind="volume"),
            Figure(name="taken_by_port", value=volumes.ports, kind="volume"),
            Figure(name="taken_by_braces", value=volumes.braces + volumes.layers, kind="volume"),
        ]
    if isinstance(enclosure, kinds.Sealed):
        fc, qtc = resonance_and_q(driver, enclosure)
        figures += [
            Figure(name="fc", value=float(fc), kind="frequency"),
            Figure(name="qtc", value=float(qtc), kind="ratio"),
        ]
    elif isinstance(enclosure, kinds.Vented | kinds.PassiveRadiatorBox):
        fb = float(enclosure.resonance(driver))
        figures.append(Figure(name="fb", value=fb, kind="frequency"))
    if port is not None:
        figures.append(Figure(name="port_length", value=port.length, kind="length"))
    figures += [
        Figure(name=name, value=_cutoff(solved, name), kind="frequency")
        for name in ("f3", "f6", "f10")
    ]
    figures += [
        Figure(name="largest_excursion", value=float(solved.excursion.max()), kind="length"),
        Figure(
            name="lowest_impedance", value=float(abs(solved.impedance).min()), kind="resistance"
        ),
    ]
    if solved.port_speed is not None:
        figures.append(
            Figure(name="largest_port_speed", value=float(solved.port_speed.max()), kind="speed")
        )
    return figures
