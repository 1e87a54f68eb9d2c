"""Ports of vented boxes: length from tuning and back, end corrections, area, pipe resonance."""

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from acoustics.enclosure.slot_ends import as_wide_correction, flanged_rectangle_correction
from acoustics.errors import (
    COUNT,
    ContradictionError,
    MissingError,
    NoSolutionError,
    OutOfRangeError,
    PortFitError,
    Quantity,
)
from acoustics.names import Name
from acoustics.values import require_positive

# End correction of a round pipe over its radius, low-frequency limit.
FLANGED_ROUND = 0.8217  # A. Norris & I. Sheng, J. Sound Vib. 135 (1989) 85; Nomura et al. (1960)
FREE_ROUND = 0.6133  # H. Levine & J. Schwinger, Phys. Rev. 73 (1948) 383
# Radius of a flare over the bore -> by how much of the radius both flares together shorten a port
# with flanged ends. Finite elements, axisymmetric, bore 100 mm, 300 mm overall: ± 0.5 %.
FLARED = ((0.25, 0.71), (0.5, 0.87), (1.0, 1.05), (1.5, 1.16))
# Uniform air speed across a flanged round opening (rigid piston), Rayleigh: an upper bound.
PISTON_ROUND = 8.0 / (3.0 * np.pi)


class End(StrEnum):
    """What surrounds one end of a port; it decides how much air outside moves along.

    Attributes:
        FREE: the pipe stands free in the air, no baffle around its mouth
        FLANGED: the mouth is flush in a large panel
        ON_WALL: flush in a panel, the width of the slot lies on a wall at right angles to it
        IN_CORNER: flush in a panel, width and height of the slot both lie on walls
        AS_WIDE: the slot is as wide as the room it opens into and lies on its floor
    """

    FREE = "free"
    FLANGED = "flanged"
    ON_WALL = "on-wall"
    IN_CORNER = "in-corner"
    AS_WIDE = "as-wide"


@dataclass(frozen=True, kw_only=True)
class RoundOpening:
    """Bore of a round port.

    Attributes:
        diameter: inner diameter [m]

    Raises:
        OutOfRangeError: the diameter is not above zero.
    """

    diameter: float

    def __post_init__(self) -> None:
        """Refuse an opening of no size."""
        require_positive(Name.PORT_DIAMETER, self.diameter, "m")

    @property
    def area(self) -> float:
        """Area of the bore, π d²/4.

        Returns: area [m²]
        """
        return float(np.pi) * self.diameter**2 / 4.0

    @property
    def hydraulic_diameter(self) -> float:
        """Four times the area over the wetted edge: the diameter itself.

        Returns: hydraulic diameter [m]
        """
        return self.diameter

    def end_correction(self, end: End) -> float:
        """Length that the air outside one end adds: 0.8217 a flanged, 0.6133 a free.

        Args:
            end: what surrounds the end

        Returns: length to add [m]

        Raises:
            OutOfRangeError: no value is known for a round bore touching walls.

        Valid: wavelength much longer than the bore.

        Source: H. Levine & J. Schwinger, Phys. Rev. 73 (1948) 383 (free);
            A. Norris & I. Sheng, J. Sound Vib. 135 (1989) 85 (flanged).
        """
        radius = self.diameter / 2.0
        if end is End.FLANGED:
            return FLANGED_ROUND * radius
        if end is End.FREE:
            return FREE_ROUND * radius
        raise OutOfRangeError(Name.PORT_END, end.value, one_of=(End.FREE, End.FLANGED))


@dataclass(frozen=True, kw_only=True)
class RectangularOpening:
    """Bore of a rectangular or slot port.

    Attributes:
        width: side that lies on the wall when an end is on a wall [m]
        height: other side [m]
        room: height of the room it opens into, where it is as wide as that [m]

    Raises:
        OutOfRangeError: a side is not above zero.
    """

    width: float
    height: float
    room: float | None = None

    def __post_init__(self) -> None:
        """Refuse an opening of no size."""
        require_positive(Name.PORT_WIDTH, self.width, "m")
        require_positive(Name.PORT_HEIGHT, self.height, "m")

    @property
    def area(self) -> float:
        """Area of the bore, width × height.

        Returns: area [m²]
        """
        return self.width * self.height

    @property
    def hydraulic_diameter(self) -> float:
        """Four times the area over the wetted edge, 2wh/(w + h).

        Returns: hydraulic diameter [m]
        """
        return 2.0 * self.area / (self.width + self.height)

    def end_correction(self, end: End) -> float:
        """Length that the air outside one end adds.

        A wall mirrors the opening: on a wall the height counts twice, in a corner both sides do.
        A free end is the flanged one times the ratio of the round pipe, 0.6133/0.8488. As wide as
        the room: see as_wide_correction.

        Args:
            end: what surrounds the end

        Returns: length to add [m]

        Raises:
            MissingError: the height of the room is not known.

        Valid: wavelength much longer than the opening; the free end is an approximation.

        Source: Lord Rayleigh, The Theory of Sound, vol. II, § 307 (flanged), method of images
            (walls); free end: common practice, no source.
        """
        if end is End.AS_WIDE:
            if self.room is None:
                raise MissingError(Name.INNER_HEIGHT)
            return as_wide_correction(self.height, self.room)
        mirrored_width = self.width * (2.0 if end is End.IN_CORNER else 1.0)
        mirrored_height = self.height * (2.0 if end in (End.ON_WALL, End.IN_CORNER) else 1.0)
        correction = float(flanged_rectangle_correction(mirrored_width, mirrored_height))
        return correction * FREE_ROUND / PISTON_ROUND if end is End.FREE else correction


@dataclass(frozen=True, kw_only=True)
class Port:
    """One port, or several equal ones, of a vented box.

    Attributes:
        opening: bore of one port
        length: length of the bore along its centre line, ends not added [m]
        outer: what surrounds the end outside the box
        inner: what surrounds the end inside the box
        count: number of equal ports [-]
        flare: radius of a quarter circle at both ends; 0 for straight ones [m]

    Raises:
        OutOfRangeError: the length is not above zero or the count is below one; a slot is flared;
            a flare is larger than one and a half bores.
        ContradictionError: the two flares are longer than the port.

    Valid: ports far enough apart that they do not share the air outside their ends.
    """

    opening: RoundOpening | RectangularOpening
    length: float
    outer: End = End.FLANGED
    inner: End = End.FREE
    count: int = 1
    flare: float = 0.0

    def __post_init__(self) -> None:
        """Refuse a port of no length, no number, or with an end no value is known for."""
        require_positive(Name.PORT_LENGTH, self.length, "m")
        if 2 * self.flare > self.length:
            both, length = Quantity(2 * self.flare, "m"), Quantity(self.length, "m")
            raise ContradictionError(code="flares-longer-than-port", value=both, limit=length)
        if self.count < 1:
            raise OutOfRangeError(Name.PORT_COUNT, self.count, COUNT, at_least=1)
        _ = self.end_correction

    @property
    def area(self) -> float:
        """Area of all equal ports together.

        Returns: area [m²]
        """
        return self.count * self.opening.area

    @property
    def end_correction(self) -> float:
        """Length that the air outside both ends adds; flares take from it what they widen.

        Returns: sum of both end corrections [m]

        Source: see ends.
        """
        return ends(self.opening, self.outer, self.inner, self.flare)

    @property
    def effective_length(self) -> float:
        """Length of the moving air, bore and both ends.

        Returns: effective length [m]
        """
        return self.length + self.end_correction

    def pipe_resonance(self, *, speed_of_sound: float = 343.2) -> float:
        """First resonance of the port as a pipe open at both ends, c/(2 Leff).

        Args:
            speed_of_sound: speed of sound [m/s]

        Returns: frequency [Hz]

        Source: Lord Rayleigh, The Theory of Sound, vol. II, § 255.
        """
        return speed_of_sound / (2.0 * self.effective_length)


def ends(
    opening: RoundOpening | RectangularOpening, outer: End, inner: End, flare: float = 0.0
) -> float:
    """Length that both ends add to a port: their corrections, less k R for flares of radius R.

    Args:
        opening: bore of the port
        outer: what surrounds the end outside the box
        inner: what surrounds the end inside the box
        flare: radius of a quarter circle at both ends; 0 for straight ones [m]

    Returns: length to add [m]

    Raises:
        OutOfRangeError: a slot is flared, or a flare is wider than is known: no value is known.

    Valid: flares up to one and a half bores; a flare is a flange to its end.

    Source: see end_correction of the opening; flares: finite elements, our own (FLARED).
    """
    if not flare:
        return opening.end_correction(outer) + opening.end_correction(inner)
    require_positive(Name.PORT_FLARE, flare, "m")
    if not isinstance(opening, RoundOpening):
        raise OutOfRangeError(Name.PORT_FLARE, flare, "m", between=(0.0, 0.0))
    radii, shares = zip(*FLARED, strict=True)
    if flare > radii[-1] * opening.diameter:
        raise OutOfRangeError(
            Name.PORT_FLARE, flare, "m", between=(0.0, radii[-1] * opening.diameter)
        )
    k = float(np.interp(flare / opening.diameter, radii, shares))
    return 2 * opening.end_correction(End.FLANGED) - k * flare


def port_for_tuning(
    frequency: float,
    *,
    volume: float,
    opening: RoundOpening | RectangularOpening,
    outer: End = End.FLANGED,
    inner: End = End.FREE,
    count: int = 1,
    flare: float = 0.0,
    beside: float = 0.0,
    speed_of_sound: float = 343.2,
) -> Port:
    """Port of the length that tunes a box, L = c² n S/((2π fb)² Vb) − ΔL.

    Args:
        frequency: wanted resonance of the box [Hz]
        volume: net volume of the box, port and displacement taken off [m³]
        opening: bore of one port
        outer: what surrounds the end outside the box
        inner: what surrounds the end inside the box
        count: number of equal ports [-]
        flare: radius of a quarter circle at both ends; 0 for straight ones [m]
        beside: area over effective length of another port that is open beside it [m]
        speed_of_sound: speed of sound [m/s]

    Returns: the port

    Raises:
        PortFitError: the ends alone already hold more air than the tuning allows.
        NoSolutionError: the port beside it alone tunes higher.
        OutOfRangeError: frequency, volume or count is not above zero; flares of no known value.
        ContradictionError: the two flares are longer than the port.

    Valid: port and box short against the wavelength.

    Source: Lord Rayleigh, The Theory of Sound, vol. II, § 303.
    """
    require_positive(Name.TUNING, frequency, "Hz")
    require_positive(Name.VOLUME, volume, "m³")
    if count < 1:
        raise OutOfRangeError(Name.PORT_COUNT, count, COUNT, at_least=1)
    area, added = count * opening.area, ends(opening, outer, inner, flare)
    wanted = (2.0 * np.pi * frequency / speed_of_sound) ** 2 * volume - beside
    if wanted <= 0.0:
        lowest = speed_of_sound / (2.0 * np.pi) * np.sqrt(beside / volume)
        raise NoSolutionError(
            code="port-beside-tunes-higher",
            value=Quantity(frequency, "Hz"),
            limit=Quantity(float(lowest), "Hz"),
        )
    if area / wanted <= added:
        highest = speed_of_sound / (2.0 * np.pi) * np.sqrt((area / added + beside) / volume)
        raise PortFitError(frequency, float(highest))
    return Port(
        opening=opening,
        length=area / wanted - added,
        outer=outer,
        inner=inner,
        count=count,
        flare=flare,
    )


def recommended_area(*, tuning: float, displacement: float) -> float:
    """Smallest port area that keeps the air speed tolerable, S = 0.8 fb Vd.

    Args:
        tuning: resonance of the box [Hz]
        displacement: area of the diaphragm times linear peak excursion, all drivers [m³]

    Returns: area of all ports together [m²]

    Raises:
        OutOfRangeError: tuning or displacement is not above zero.

    Valid: a rule for programme near the tuning; the air speed of the solver decides.

    Source: R. H. Small, "Vented-Box Loudspeaker Systems, Part II", JAES 21 (July/Aug. 1973), from
        memory.
    """
    require_positive(Name.TUNING, tuning, "Hz")
    require_positive(Name.DISPLACEMENT, displacement, "m³")
    return 0.8 * tuning * displacement
