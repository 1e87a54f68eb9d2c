"""Ports of vented boxes: length from tuning and back, end corrections, area, pipe resonance."""

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from acoustics.errors import COUNT, OutOfRangeError, PortFitError
from acoustics.names import Name
from acoustics.values import Real, require_positive

# End correction of a round pipe over its radius, low-frequency limit.
FLANGED_ROUND = 0.8217  # A. Norris & I. Sheng, J. Sound Vib. 135 (1989) 85; Nomura et al. (1960)
FREE_ROUND = 0.6133  # H. Levine & J. Schwinger, Phys. Rev. 73 (1948) 383
# Uniform air speed across a flanged round opening (rigid piston), Rayleigh: an upper bound.
PISTON_ROUND = 8.0 / (3.0 * np.pi)


class End(StrEnum):
    """What surrounds one end of a port; it decides how much air outside moves along.

    Attributes:
        FREE: the pipe stands free in the air, no baffle around its mouth
        FLANGED: the mouth is flush in a large panel
        ON_WALL: flush in a panel, the width of the slot lies on a wall at right angles to it
        IN_CORNER: flush in a panel, width and height of the slot both lie on walls
        BETWEEN_WALLS: the bare edge of a board over the whole width of the box, which ends in it
    """

    FREE = "free"
    FLANGED = "flanged"
    ON_WALL = "on-wall"
    IN_CORNER = "in-corner"
    BETWEEN_WALLS = "between-walls"


def flanged_rectangle_correction(width: Real, height: Real) -> Real:
    """End correction of a flanged rectangular opening with uniform air speed across it.

    ΔL = (1/2πS) ∬∬ dS dS'/r, in closed form with a = width, b = height:
    ΔL = [2ab(a asinh(b/a) + b asinh(a/b)) + ⅔(a³ + b³ − (a² + b²)^1.5)] / (2πab).

    Uniform speed makes it an upper bound: about 3 % above the true pipe for a round opening.

    Args:
        width: one side of the opening [m]
        height: other side of the opening [m]

    Returns: length to add for this end [m]

    Valid: low frequencies (wavelength much longer than the opening), infinite flange.

    Source: Lord Rayleigh, The Theory of Sound, vol. II, §§ 302 and 307 (piston in an infinite
        flange); the integral over a rectangle is elementary and is checked by quadrature.
    """
    a, b = width, height
    integral = 2.0 * a * b * (a * np.arcsinh(b / a) + b * np.arcsinh(a / b)) + (2.0 / 3.0) * (
        a**3 + b**3 - (a**2 + b**2) ** 1.5
    )
    correction: Real = integral / (2.0 * np.pi * a * b)
    return correction


# The bare edge of a board against the flush end of `step_correction`: 0.867 to 0.887 for boards
# of 18 mm, slots of 40 to 50 mm and boxes of 320 to 400 mm (mode matching).
BARE_EDGE = 0.88


def step_correction(height: float, room: float) -> float:
    """End correction of a slot as wide as its box where it opens into the box, in two dimensions.

    ΔL = (2h/π) [((1 + x²)/(2x)) ln((1 + x)/(1 - x)) + ln((1 - x²)/(4x))], x = h/H; the slot lies
    on a wall, its end flush in one.

    Args:
        height: height of the slot h [m]
        room: height of the box from that wall on H [m]

    Returns: length to add for this end [m]

    Raises:
        OutOfRangeError: the slot is as high as the box, or has no height.

    Valid: wavelength much longer than the box is high.

    Source: step of a parallel-plate guide, N. Marcuvitz, Waveguide Handbook (1951), § 5.26, from
        memory; checked by mode matching at h/H of 0.05 to 0.5.
    """
    require_positive(Name.PORT_HEIGHT, height, "m")
    if height >= room:
        raise OutOfRangeError(Name.PORT_HEIGHT, height, "m", below=room)
    x = height / room
    return float(
        2.0
        * height
        / np.pi
        * ((1 + x**2) / (2 * x) * np.log((1 + x) / (1 - x)) + np.log((1 - x**2) / (4 * x)))
    )


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
        room: of a slot as wide as its box, how high the box is from the wall it lies on [m]

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
        A free end is the flanged one times the ratio of the round pipe, 0.6133/0.8488.

        Args:
            end: what surrounds the end

        Returns: length to add [m]

        Raises:
            OutOfRangeError: between walls, when the room above the slot is not known.

        Valid: wavelength much longer than the opening; the free end is an approximation, that
            between walls within 2 %.

        Source: Lord Rayleigh, The Theory of Sound, vol. II, § 307 (flanged), method of images
            (walls); free end: common practice, no source.
        """
        if end is End.BETWEEN_WALLS:
            if self.room is None:
                raise OutOfRangeError(Name.PORT_END, end.value, one_of=(End.FREE, End.FLANGED))
            return BARE_EDGE * step_correction(self.height, self.room)
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

    Raises:
        OutOfRangeError: the length is not above zero or the count is below one.

    Valid: ports far enough apart that they do not share the air outside their ends.
    """

    opening: RoundOpening | RectangularOpening
    length: float
    outer: End = End.FLANGED
    inner: End = End.FREE
    count: int = 1

    def __post_init__(self) -> None:
        """Refuse a port of no length, no number, or with an end no value is known for."""
        require_positive(Name.PORT_LENGTH, self.length, "m")
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
        """Length that the air outside both ends adds.

        Returns: sum of both end corrections [m]

        Source: see end_correction of the opening.
        """
        return self.opening.end_correction(self.outer) + self.opening.end_correction(self.inner)

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


def port_for_tuning(
    frequency: float,
    *,
    volume: float,
    opening: RoundOpening | RectangularOpening,
    outer: End = End.FLANGED,
    inner: End = End.FREE,
    count: int = 1,
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
        speed_of_sound: speed of sound [m/s]

    Returns: the port

    Raises:
        PortFitError: the ends alone already hold more air than the tuning allows.
        OutOfRangeError: frequency, volume or count is not above zero.

    Valid: port and box short against the wavelength.

    Source: Lord Rayleigh, The Theory of Sound, vol. II, § 303.
    """
    require_positive(Name.TUNING, frequency, "Hz")
    require_positive(Name.VOLUME, volume, "m³")
    if count < 1:
        raise OutOfRangeError(Name.PORT_COUNT, count, COUNT, at_least=1)
    effective = (speed_of_sound / (2.0 * np.pi * frequency)) ** 2 * count * opening.area / volume
    ends = opening.end_correction(outer) + opening.end_correction(inner)
    if effective <= ends:
        highest = frequency * np.sqrt(effective / ends)
        raise PortFitError(frequency, float(highest))
    return Port(opening=opening, length=effective - ends, outer=outer, inner=inner, count=count)


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
