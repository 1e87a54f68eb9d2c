"""Standing waves inside a box: rigid-walled modes of a prism over any simple profile."""

from dataclasses import dataclass

import numpy as np
from scipy import sparse
from scipy.sparse.linalg import LinearOperator, eigsh, splu

from acoustics.air.mesh import Ints, Profile, clean_profile, triangulate
from acoustics.errors import COUNT, OutOfRangeError
from acoustics.findings import Finding
from acoustics.names import Name
from acoustics.sources import Source
from acoustics.values import Floats, require_positive

FEWEST = 8  # the mesh is made fine enough for at least this many modes
EDGE_PER_RADIAN = 1.0  # longest edge times wave number of the highest mode asked for

# Quadratic triangle: corners 0-2, then the middles of edges 01, 12 and 20.
# Mass over area/180: O. C. Zienkiewicz & R. L. Taylor, The Finite Element Method, vol. 1.
_MASS = np.array(
    [
        [6, -1, -1, 0, -4, 0],
        [-1, 6, -1, 0, 0, -4],
        [-1, -1, 6, -4, 0, 0],
        [0, 0, -4, 32, 16, 16],
        [-4, 0, 0, 16, 32, 16],
        [0, -4, 0, 16, 16, 32],
    ],
    dtype=np.float64,
)


@dataclass(frozen=True, kw_only=True)
class Modes:
    """Rigid-walled modes of a prism, lowest first, the uniform pressure left out.

    Attributes:
        frequencies: frequency of each mode [Hz]
        indices: for each mode of a prism the number of its profile mode (0 is uniform over the
            profile) and the number of half waves across the width; empty for any other box [-]
        profile_frequencies: frequencies of the modes of the profile alone as far as they were
            needed, the uniform one (0 Hz) first [Hz]
    """

    frequencies: Floats
    indices: tuple[tuple[int, int], ...]
    profile_frequencies: Floats


@dataclass(frozen=True, kw_only=True)
class ModeVerdict:
    """What the standing waves of a box mean for the band it is used in.

    Attributes:
        modes: modes of the box as it is
        rectangle: modes of the box of the same height, width and volume with square corners
        in_band: number of modes inside the band [-]
        in_band_rectangle: number of modes of the square box inside the band [-]
        shift: lowest mode of the box over that of the square box, less one [-]
        findings: what to say about it
    """

    modes: Modes
    rectangle: Modes
    in_band: int
    in_band_rectangle: int
    shift: float
    findings: tuple[Finding, ...]


def profile_frequencies(profile: Profile, *, count: int, speed_of_sound: float = 343.2) -> Floats:
    """Lowest modes of a flat rigid-walled cavity, the uniform one (0 Hz) first.

    ∇²p + (2πf/c)² p = 0 inside, ∂p/∂n = 0 on the edge. A rectangle is exact; any other simple
    polygon is solved with quadratic triangles, finer towards inner corners.

    Args:
        profile: corners (x, y) in order, either way round [m]
        count: number of frequencies wanted, the uniform one counted [-]
        speed_of_sound: speed of sound [m/s]

    Returns: frequencies, lowest first [Hz]

    Raises:
        OutOfRangeError: the profile is not a simple polygon, or count or speed is not above 0.

    Valid: rigid, airtight walls, no damping; the lowest ten within 0.1 %, with more than eight
        inner corners within 1 %.

    Source: P. M. Morse & K. U. Ingard, Theoretical Acoustics (1968), § 9.5 (rooms); Galerkin's
        method with quadratic triangles, O. C. Zienkiewicz & R. L. Taylor, The Finite Element
        Method, vol. 1.
    """
    if count < 1:
        raise OutOfRangeError(Name.MODE_COUNT, count, COUNT, at_least=1)
    require_positive(Name.SPEED_OF_SOUND, speed_of_sound, "m/s")
    corners = clean_profile(profile)
    sides = _rectangle_sides(corners)
    if sides is not None:
        steps = np.arange(count + 1)
        grid = np.hypot(steps[:, None] / sides[0], steps[None, :] / sides[1])
        return speed_of_sound / 2.0 * np.sort(grid, axis=None)[:count]
    return speed_of_sound / (2.0 * np.pi) * _wave_numbers(corners, count)


def prism_modes(
    *, profile: Profile, width: float, count: int = 10, speed_of_sound: float = 343.2
) -> Modes:
    """Lowest modes of a box whose profile is the same all across its width.

    f = sqrt(f_profile² + (n c / 2W)²), exact across the width.

    Args:
        profile: corners (x, y) of the inside of the profile in order, either way round [m]
        width: inside width [m]
        count: number of modes wanted [-]
        speed_of_sound: speed of sound [m/s]

    Returns: the modes

    Raises:
        OutOfRangeError: the profile is not a simple polygon, or a number is not above 0.

    Valid: rigid, airtight walls, no damping material, driver and braces left out.

    Source: P. M. Morse & K. U. Ingard, Theoretical Acoustics (1968), § 9.5.
    """
    require_positive(Name.INSIDE_WIDTH, width, "m")
    if count < 1:
        raise OutOfRangeError(Name.MODE_COUNT, count, COUNT, at_least=1)
    # The square box tells how many profile modes a box of this width is likely to need.
    likely = _combine(
        profile_frequencies(
            square_profile(profile), count=count + 1, speed_of_sound=speed_of_sound
        ),
        spacing=speed_of_sound / (2.0 * width),
        count=count,
    )
    few = max(index for index, _ in likely.indices) + 2
    for wanted in (min(few, count + 1), count + 1):
        flat = profile_frequencies(profile, count=wanted, speed_of_sound=speed_of_sound)
        modes = _combine(flat, spacing=speed_of_sound / (2.0 * width), count=count)
        if flat[-1] >= modes.frequencies[-1]:
            break
    return modes


def square_profile(profile: Profile) -> Profile:
    """Rectangle of the same height (in y) and area as a profile.

    Args:
        profile: corners (x, y) in order, either way round [m]

    Returns: corners of the rectangle [m]

    Raises:
        OutOfRangeError: the profile is not a simple polygon.

    Source: definition.
    """
    corners = clean_profile(profile)
    height = float(np.ptp(corners[:, 1]))
    depth = _area(corners) / height
    return [(0.0, 0.0), (depth, 0.0), (depth, height), (0.0, height)]


def judge_modes(
    *,
    profile: Profile,
    width: float,
    highest_used: float,
    count: int = 10,
    speed_of_sound: float = 343.2,
) -> ModeVerdict:
    """Say whether standing waves fall into the used band and whether the shape changes that.

    The box is compared with the square box of the same height, width and volume. A sloped panel
    moves modes and does not remove them; it matters when it changes how many lie in the band.

    Args:
        profile: corners (x, y) of the inside of the profile, y upwards, in order [m]
        width: inside width [m]
        highest_used: highest frequency the box is used at, such as its low-pass corner [Hz]
        count: number of modes looked at [-]
        speed_of_sound: speed of sound [m/s]

    Returns: the verdict

    Raises:
        OutOfRangeError: the profile is not a simple polygon, or a number is not above 0.

    Valid: as prism_modes.

    Source: comparison by definition; that shape moves modes and does not remove them:
        J. R. Milner & R. J. Bernhard, J. Acoust. Soc. Am. 85 (1989), from memory.
    """
    require_positive(Name.HIGHEST_USED, highest_used, "Hz")
    corners = clean_profile(profile)
    modes = prism_modes(profile=profile, width=width, count=count, speed_of_sound=speed_of_sound)
    rectangle = prism_modes(
        profile=square_profile(profile), width=width, count=count, speed_of_sound=speed_of_sound
    )
    return verdict(
        modes,
        rectangle,
        highest_used=highest_used,
        is_square=_rectangle_sides(corners) is not None,
    )


def verdict(modes: Modes, rectangle: Modes, *, highest_used: float, is_square: bool) -> ModeVerdict:
    """Hold the modes of a box against the used band and against those of a square box.

    Args:
        modes: modes of the box as it is
        rectangle: modes of the square box of the same height, width and volume
        highest_used: highest frequency the box is used at [Hz]
        is_square: whether the box is that square box

    Returns: the verdict

    Source: definition.
    """
    in_band = int(np.count_nonzero(modes.frequencies <= highest_used))
    in_band_rectangle = int(np.count_nonzero(rectangle.frequencies <= highest_used))
    lowest = float(modes.frequencies[0])
    shift = lowest / float(rectangle.frequencies[0]) - 1.0
    source = (Source.MORSE_INGARD,)
    findings = [
        Finding(
            code="standing-wave-in-band" if in_band else "standing-waves-above-band",
            value=lowest,
            limit=highest_used,
            unit="Hz",
            source=source,
        )
    ]
    # Where counting stopped inside the band, nobody knows how many the two shapes have.
    counted = max(in_band, in_band_rectangle) < len(modes.frequencies)
    if not is_square and counted:
        same = in_band == in_band_rectangle
        findings.append(
            Finding(
                code="box-shape-does-not-matter" if same else "box-shape-matters",
                value=lowest,
                limit=float(rectangle.frequencies[0]),
                unit="Hz",
                source=source,
            )
        )
    return ModeVerdict(
        modes=modes,
        rectangle=rectangle,
        in_band=in_band,
        in_band_rectangle=in_band_rectangle,
        shift=shift,
        findings=tuple(findings),
    )


def _combine(flat: Floats, *, spacing: float, count: int) -> Modes:
    """Modes of a prism from those of its profile and the spacing of those across its width."""
    grid = np.hypot(flat[:, None], spacing * np.arange(count + 1)[None, :])
    order = np.argsort(grid, axis=None, kind="stable")[1 : count + 1]
    numbers = np.column_stack(np.unravel_index(order, grid.shape))
    return Modes(
        frequencies=grid.ravel()[order],
        indices=tuple((int(a), int(b)) for a, b in numbers),
        profile_frequencies=flat,
    )


def _area(corners: Floats) -> float:
    x, y = corners.T
    return 0.5 * float(np.dot(x, np.roll(y, -1)) - np.dot(y, np.roll(x, -1)))


def _rectangle_sides(corners: Floats) -> tuple[float, float] | None:
    """Both sides of a rectangle at any angle, or None when the corners are not one."""
    if len(corners) != 4:
        return None
    a, b, c, d = corners
    size = float(np.abs(corners - a).max())
    parallelogram = bool(np.abs(a + c - b - d).max() < 1e-9 * size)
    if parallelogram and abs(float(np.dot(b - a, d - a))) < 1e-9 * size**2:
        return float(np.hypot(*(b - a))), float(np.hypot(*(d - a)))
    return None


def _wave_numbers(corners: Floats, count: int) -> Floats:
    """Wave numbers of the lowest modes of a polygon by quadratic triangles."""
    area = _area(corners)
    rim = float(np.hypot(*(corners - np.roll(corners, 1, axis=0)).T).sum())
    # Weyl's law with its edge term: about area k²/4π + rim k/4π modes below wave number k.
    modes = max(count, FEWEST)
    highest = (np.sqrt(rim**2 + 16.0 * np.pi * area * modes) - rim) / (2.0 * area)
    points, triangles = triangulate(corners, EDGE_PER_RADIAN / highest)
    stiffness, mass = _assemble(points, triangles)
    size = stiffness.shape[0]
    wanted = min(count + 2, size - 1)  # two spare: the last of a near pair converges late
    # A shift a little below zero keeps the matrix definite although K is singular.
    shift = -0.1 * highest**2
    factors = splu(
        stiffness - shift * mass,
        permc_spec="MMD_AT_PLUS_A",
        diag_pivot_thresh=0.0,
        options={"SymmetricMode": True},
    )
    values = eigsh(
        stiffness,
        wanted,
        mass,
        sigma=shift,
        OPinv=LinearOperator((size, size), matvec=factors.solve, dtype=np.float64),
        v0=np.random.default_rng(0).standard_normal(size),
        tol=1e-9,
        return_eigenvectors=False,
    )
    return np.sqrt(np.clip(np.sort(values)[:count], 0.0, None))


def _assemble(points: Floats, triangles: Ints) -> tuple[sparse.csc_array, sparse.csc_array]:
    """Stiffness and mass of quadratic triangles with straight edges."""
    pairs = np.sort(triangles[:, [[0, 1], [1, 2], [2, 0]]].reshape(-1, 2), axis=1)
    _, middle = np.unique(pairs[:, 0] * len(points) + pairs[:, 1], return_inverse=True)
    nodes = np.hstack([triangles, len(points) + middle.reshape(-1, 3)])
    a, b, c = (points[triangles[:, i]] for i in range(3))
    twice = (b - a)[:, 0] * (c - a)[:, 1] - (b - a)[:, 1] * (c - a)[:, 0]
    # Gradient of each corner's area coordinate: its opposite edge turned by 90°.
    opposite = np.stack([c - b, a - c, b - a], axis=1)
    gradient = np.stack([-opposite[..., 1], opposite[..., 0]], axis=-1) / twice[:, None, None]
    # One row per shape function, one column per midpoint and direction.
    slopes = (_SHAPE_SLOPES[None] @ gradient[:, None]).swapaxes(1, 2).reshape(-1, 6, 6)
    stiffness = slopes @ slopes.swapaxes(1, 2) * (twice / 6.0)[:, None, None]
    mass = _MASS[None] * (twice / 360.0)[:, None, None]
    rows = np.repeat(nodes, 6, axis=1).ravel()
    columns = np.tile(nodes, (1, 6)).ravel()
    size = int(nodes.max()) + 1
    where = (rows, columns)
    return (
        sparse.coo_array((stiffness.ravel(), where), shape=(size, size)).tocsc(),
        sparse.coo_array((mass.ravel(), where), shape=(size, size)).tocsc(),
    )


def _shape_slopes() -> Floats:
    """Slopes of the six shape functions by area coordinate, at the middles of the three edges.

    Corner i: L(2L − 1); middle of edge ij: 4 Li Lj. Three midpoints integrate products exactly.
    """
    slopes = np.zeros((3, 6, 3))
    for q, at in enumerate(np.array([[0.5, 0.5, 0.0], [0.0, 0.5, 0.5], [0.5, 0.0, 0.5]])):
        for i in range(3):
            j = (i + 1) % 3
            slopes[q, i, i] = 4.0 * at[i] - 1.0
            slopes[q, 3 + i, i] = 4.0 * at[j]
            slopes[q, 3 + i, j] = 4.0 * at[i]
    return slopes


_SHAPE_SLOPES = _shape_slopes()
