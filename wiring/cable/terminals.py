"""Ends and routes of a cable: crimps, terminal metals, bends, supports and grommets."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from wiring.cable.conductor import awg_area
from wiring.errors import OutsideTableError, require_positive
from wiring.findings import Finding
from wiring.names import Name
from wiring.sources import Source

POUND_FORCE = 4.4482216152605  # N, definition

# Least pull-out force of a crimp, lbf: UL 486A type (commercial) and MIL-T-7928 type
# (military), as reproduced in a terminal maker's application specification.
_COMMERCIAL = {
    "26": 3, "24": 5, "22": 8, "20": 13, "18": 20, "16": 30, "14": 50, "12": 70, "10": 80,
    "8": 90, "6": 100, "4": 140, "2": 180, "1/0": 250, "2/0": 300,
}  # fmt: skip
_MILITARY = {
    "26": 7, "24": 10, "22": 15, "20": 19, "18": 38, "16": 50, "14": 70, "12": 110, "10": 150,
}  # fmt: skip

BATTERY_SPACING = 0.300  # ISO 10133:2012, battery cables
OTHER_SPACING = 0.450  # ISO 10133:2012, 7.3
_SLACK_AREA = 1e-9  # a size typed as mm² may differ from the gauge in the last digit


@dataclass(frozen=True, kw_only=True)
class PullForce:
    """Least force a crimped terminal must hold in a pull test.

    Attributes:
        size: listed AWG size the figures are for, at least as large as the conductor
        commercial: UL 486A type figure [N]
        military: MIL-T-7928 type figure, None above 10 AWG [N]
        required: the figure to test with, the greatest of this and of every smaller size [N]

    Source: UL 486A and MIL-T-7928 types, as reproduced in a terminal maker's specification
    """

    size: str
    commercial: float
    military: float | None
    required: float


def pull_force(area: float) -> PullForce:
    """Least pull-out force of a crimp on a copper conductor.

    A size between two listed ones takes the larger, which rounds the force up. The military
    column counts where there is one; above 10 AWG the required force never falls below the
    one of a thinner wire.

    Args:
        area: cross-section of the conductor's metal [m²]

    Returns: published and required forces [N]

    Raises:
        OutsideTableError: the conductor is larger than 2/0 AWG.
        OutOfRangeError: the area is not above 0.

    Valid: copper; pull at 25.4 mm/min or hold for 1 min. Thinner than 26 AWG takes its figure.

    Source: UL 486A and MIL-T-7928 types, as reproduced in a terminal maker's specification
    """
    require_positive(name=Name.AREA, value=area, unit="m²")
    greatest = 0.0
    for size, commercial in _COMMERCIAL.items():
        military = _MILITARY.get(size)
        greatest = max(greatest, commercial, military or 0.0)
        if area <= awg_area(size) * (1.0 + _SLACK_AREA):
            return PullForce(
                size=size,
                commercial=commercial * POUND_FORCE,
                military=None if military is None else military * POUND_FORCE,
                required=greatest * POUND_FORCE,
            )
    raise OutsideTableError(Name.AREA, area, "m²", at_most=awg_area("2/0"))


def bend_radius(
    *, outer_diameter: float, screened: bool = False, maker_radius: float | None = None
) -> float:
    """Smallest inner radius a cable may be fixed at.

    4 × OD up to 25.4 mm, 5 × up to 50.8 mm, 6 × over; screened cables 12 ×; the maker's figure
    where it is larger.

    Args:
        outer_diameter: over the insulation [m]
        screened: True for a cable with a screen
        maker_radius: figure of the cable's maker, None when not stated [m]

    Returns: radius to the inner surface [m]

    Raises:
        OutOfRangeError: a value is not above 0.

    Valid: insulation up to 4 mm thick.

    Source: ICEA type rule in published cable guides; screened pairs 8 to 12 ×, the larger used
    """
    require_positive(name=Name.OUTER_DIAMETER, value=outer_diameter, unit="m")
    if screened:
        factor = 12.0
    elif outer_diameter <= 0.0254:
        factor = 4.0
    else:
        factor = 5.0 if outer_diameter <= 0.0508 else 6.0
    radius = factor * outer_diameter
    if maker_radius is None:
        return radius
    require_positive(name=Name.MAKERS_BEND_RADIUS, value=maker_radius, unit="m")
    return max(radius, maker_radius)


def support_count(length: float, *, battery_cable: bool) -> int:
    """Number of clips that keep a run supported, rounded up.

    n = ⌈L / s⌉, s = 300 mm for battery cables and 450 mm for others; the terminals at the ends
    are not counted as supports.

    Args:
        length: length of the run [m]
        battery_cable: True for a cable on a battery

    Returns: number of supports [-]

    Raises:
        OutOfRangeError: the length is not above 0.

    Source: ISO 10133:2012, 7.3 and 7.4
    """
    require_positive(name=Name.LENGTH, value=length, unit="m")
    spacing = BATTERY_SPACING if battery_cable else OTHER_SPACING
    return math.ceil(length / spacing - 1e-9)


@dataclass(frozen=True, kw_only=True)
class Passage:
    """A place where a run goes through a sheet or past an edge; None means unknown.

    Attributes:
        id: what the place on this route is known by; findings hand it back as their detail
        place: name of the panel or bulkhead
        metal: True when the edge is metal
        grommet: True when a grommet, gland or edge guard is fitted
    """

    id: str
    place: str
    metal: bool | None
    grommet: bool | None


@dataclass(frozen=True, kw_only=True)
class CrimpTerminal:
    """A terminal on the end of a run; None means the sheet does not say.

    Attributes:
        name: what the order list calls it, such as "ring M8, 25 mm²"
        metals: conductor metals the terminal is rated for, keys of wiring.conductor.METALS
        torque: tightening torque of its stud from the part maker's sheet [N·m]
        on_stud: True when it sits under a nut or screw
        stud: the stud its hole is for, such as "M8"; empty where none is stated
        smallest: least cable its maker allows [m²]
        largest: largest cable its maker allows [m²]
        crimped: False for a plug that comes on its lead or is soldered on

    Raises:
        OutOfRangeError: the torque is not above 0.
    """

    name: str
    metals: frozenset[str] | None
    torque: float | None = None
    on_stud: bool = True
    stud: str = ""
    smallest: float | None = None
    largest: float | None = None
    crimped: bool = True

    def __post_init__(self) -> None:
        """Refuse a torque that cannot be."""
        if self.torque is not None:
            require_positive(name=Name.TORQUE, value=self.torque, unit="N·m")


def check_terminal(
    terminal: CrimpTerminal, *, metal: str, about: str, detail: tuple[str, ...] = ()
) -> tuple[Finding, ...]:
    """Findings on one crimped end: is the terminal rated for the metal, is its torque known.

    Args:
        terminal: the terminal
        metal: metal of the conductor, a key of wiring.conductor.METALS
        about: id of the run
        detail: which end of which core

    Returns: findings

    Source: terminal maker's sheet; crimp standards cover copper unless the maker says more
    """
    findings = []
    sheet = (Source.TERMINAL_SHEET,)
    if terminal.metals is None:
        if metal != "copper":
            findings.append(
                Finding(
                    code="terminal-metal-unknown",
                    about=about,
                    detail=detail,
                    value=metal,
                    source=sheet,
                )
            )
    elif metal not in terminal.metals:
        rated = ", ".join(sorted(terminal.metals))
        findings.append(
            Finding(
                code="terminal-unsuited-to-metal",
                about=about,
                detail=detail,
                value=metal,
                limit=rated,
                source=sheet,
            )
        )
    if terminal.on_stud and terminal.torque is None:
        findings.append(
            Finding(
                code="stud-torque-unknown", about=about, detail=detail, unit="N·m", source=sheet
            )
        )
    return tuple(findings)


def check_terminal_size(
    terminal: CrimpTerminal, *, area: float, about: str, detail: tuple[str, ...] = ()
) -> tuple[Finding, ...]:
    """Findings on one crimped end: is the terminal made for this size of cable.

    Args:
        terminal: the terminal
        area: nominal cross-section of the cable [m²]
        about: id of the run
        detail: which end of which core

    Returns: findings

    Valid: a size typed as mm² may differ from the gauge in the last digits: 1 % is let pass

    Source: terminal maker's sheet
    """
    sheet = (Source.TERMINAL_SHEET,)
    low, high = terminal.smallest, terminal.largest
    if high is None:
        return (Finding(code="terminal-size-unknown", about=about, detail=detail, source=sheet),)
    if (low or 0.0) * 0.99 <= area <= high * 1.01:
        return ()
    return (
        Finding(
            code="terminal-wrong-size",
            about=about,
            detail=detail,
            value=area,
            limit=high if area > high else low,
            unit="m²",
            source=sheet,
        ),
    )


def check_stud(
    terminal: CrimpTerminal, *, stud: str, about: str, detail: tuple[str, ...] = ()
) -> tuple[Finding, ...]:
    """Findings on one crimped end: does its hole fit the stud it goes on.

    Args:
        terminal: the terminal
        stud: the stud of the place, such as "M8"; empty where nobody noted it
        about: id of the run
        detail: which end of which core

    Returns: findings

    Source: terminal maker's sheet
    """
    if not stud or not terminal.stud or terminal.stud.upper() == stud.upper():
        return ()
    return (
        Finding(
            code="terminal-wrong-stud",
            about=about,
            detail=detail,
            value=terminal.stud,
            limit=stud,
            source=(Source.TERMINAL_SHEET,),
        ),
    )


def check_passages(passages: Sequence[Passage], *, about: str) -> tuple[Finding, ...]:
    """Findings on the places a run passes: a metal edge needs a grommet.

    Args:
        passages: places in the order of the route
        about: id of the run

    Returns: findings, the place as their detail

    Source: 33 CFR 183.445; ISO 10133:2012, 7.5
    """
    findings = []
    for passage in passages:
        if passage.metal is False or passage.grommet:
            continue
        known = passage.metal is not None and passage.grommet is not None
        findings.append(
            Finding(
                code="grommet-missing" if known else "passage-unknown",
                about=about,
                detail=(passage.id,),
                source=(Source.CABLE_EDGES,),
            )
        )
    return tuple(findings)


def check_bend(
    *,
    radius: float | None,
    outer_diameter: float | None,
    about: str,
    screened: bool = False,
    maker_radius: float | None = None,
) -> tuple[Finding, ...]:
    """Findings on the tightest bend of a run.

    Args:
        radius: tightest inner radius on the route, None when not measured [m]
        outer_diameter: over the insulation, None when not known [m]
        about: id of the run
        screened: True for a cable with a screen
        maker_radius: figure of the cable's maker, None when not stated [m]

    Returns: findings

    Raises:
        OutOfRangeError: a known value is not above 0.

    Source: see bend_radius
    """
    source = (Source.BEND, Source.CABLE_MAKER_IF_LARGER)
    if outer_diameter is None:
        return (Finding(code="outer-diameter-unknown", about=about, unit="m", source=source),)
    limit = bend_radius(outer_diameter=outer_diameter, screened=screened, maker_radius=maker_radius)
    if radius is None:
        code = "bend-radius-unknown"
    else:
        require_positive(name=Name.BEND_RADIUS, value=radius, unit="m")
        if radius >= limit * (1.0 - 1e-9):
            return ()
        code = "bend-too-tight"
    return (Finding(code=code, about=about, value=radius, limit=limit, unit="m", source=source),)
