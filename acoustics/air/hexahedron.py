"""Standing waves inside a box of six flat sides of which none need be parallel or square."""

import math

import numpy as np
from scipy.linalg import eigh

from acoustics.air.modes import Modes, ModeVerdict, prism_modes, verdict
from acoustics.errors import COUNT, OutOfRangeError
from acoustics.names import Name
from acoustics.values import Floats, require_positive

Corners = tuple[tuple[float, float, float], ...]

# Where each corner lies in the cube that is mapped onto the box: the bottom round, then the top.
_CUBE = np.array(
    [(a, b, c) for c in (-1, 1) for a, b in ((-1, -1), (1, -1), (1, 1), (-1, 1))],
    dtype=np.float64,
)
# Degrees beyond the half waves of the highest mode, and quadrature points beyond the degrees.
SPARE, POINTS = 3, 2
# The least that a mean side is taken for, against the longest ones: it bounds the time.
LEAST = 0.5


def hexahedron_frequencies(
    corners: Corners, *, count: int, speed_of_sound: float = 343.2
) -> Floats:
    """Lowest rigid-walled modes of a hexahedron, the uniform one (0 Hz) first.

    The least values of ∫ |∇p|² / ∫ p² over products of Legendre polynomials on the cube that
    x = Σ corner · Π (1 ± ξ) / 2 maps onto the box (Rayleigh-Ritz), with Gauss quadrature.

    Args:
        corners: four corners (x, y, z) of the bottom in order, then those of the top above
            them [m]
        count: number of frequencies wanted, the uniform one counted [-]
        speed_of_sound: speed of sound [m/s]

    Returns: frequencies, lowest first [Hz]

    Raises:
        OutOfRangeError: the corners do not enclose a volume, or count or speed is not above 0.

    Valid: rigid, airtight walls, no damping; flat sides; the lowest ten within 0.1 %.

    Source: W. Ritz, J. reine angew. Math. 135 (1909) 1, from memory; P. M. Morse & K. U. Ingard,
        Theoretical Acoustics (1968), § 9.5.
    """
    if count < 1:
        raise OutOfRangeError(Name.MODE_COUNT, count, COUNT, at_least=1)
    require_positive(Name.SPEED_OF_SOUND, speed_of_sound, "m/s")
    points = _checked(corners)
    degrees = _degrees(points, count)
    values: list[Floats] = []
    slopes: list[Floats] = []
    weights: list[Floats] = []
    nodes: list[Floats] = []
    for degree in degrees:
        at, weight = np.polynomial.legendre.leggauss(degree + POINTS)
        # Legendre polynomials and their slopes, one column per degree.
        eye = np.eye(degree + 1)
        values.append(np.asarray(np.polynomial.legendre.legvander(at, degree), dtype=np.float64))
        slopes.append(
            np.column_stack(
                [np.polynomial.legendre.legval(at, np.polynomial.legendre.legder(c)) for c in eye]
            )
        )
        nodes.append(at)
        weights.append(weight)
    grid = np.stack(np.meshgrid(*nodes, indexing="ij"), axis=-1).reshape(-1, 3)
    jacobian = _jacobian(points, grid)
    volume = weights[0][:, None, None] * weights[1][:, None] * weights[2]
    root = np.sqrt(volume.ravel() * np.linalg.det(jacobian))
    inverse = np.linalg.inv(jacobian)
    basis = _products(values, degrees) * root[:, None]
    mass = basis.T @ basis
    along = [_products([*values[:i], slopes[i], *values[i + 1 :]], degrees) for i in range(3)]
    stiffness = np.zeros_like(mass)
    for axis in range(3):
        # ∂p/∂x = Σ ∂ξ/∂x · ∂p/∂ξ
        slope = sum((inverse[:, i, axis] * root)[:, None] * along[i] for i in range(3))
        stiffness += slope.T @ slope
    eigenvalues: Floats = eigh(stiffness, mass, eigvals_only=True, subset_by_index=(0, count - 1))
    frequencies: Floats = speed_of_sound / (2.0 * np.pi) * np.sqrt(np.clip(eigenvalues, 0.0, None))
    return frequencies


def hexahedron_volume(corners: Corners) -> float:
    """Return the volume of a hexahedron, ∫ |∂x/∂ξ| over the cube.

    Args:
        corners: as `hexahedron_frequencies` [m]

    Returns: volume [m³]

    Raises:
        OutOfRangeError: the corners do not enclose a volume.

    Source: definition; two Gauss points per side are exact for it.
    """
    return _volume(_checked(corners))


def judge_hexahedron(
    *, corners: Corners, highest_used: float, count: int = 10, speed_of_sound: float = 343.2
) -> ModeVerdict:
    """Say whether standing waves fall into the used band and whether the shape changes that.

    The box is compared with the square box of the same height, mean width and volume.

    Args:
        corners: as `hexahedron_frequencies`, y upwards and z across [m]
        highest_used: highest frequency the box is used at, such as its low-pass corner [Hz]
        count: number of modes looked at [-]
        speed_of_sound: speed of sound [m/s]

    Returns: the verdict

    Raises:
        OutOfRangeError: the corners do not enclose a volume, or a number is not above 0.

    Valid: as hexahedron_frequencies; driver and braces left out.

    Source: as judge_modes.
    """
    require_positive(Name.HIGHEST_USED, highest_used, "Hz")
    points = _checked(corners)
    height = float(np.ptp(points[:, 1]))
    width = float(np.mean([np.ptp(level[:, 2]) for level in (points[:4], points[4:])]))
    depth = hexahedron_volume(corners) / (height * width)
    flat = hexahedron_frequencies(corners, count=count + 1, speed_of_sound=speed_of_sound)
    # None of these is a product of a profile's mode and half waves across.
    modes = Modes(frequencies=flat[1:], indices=(), profile_frequencies=flat[:0])
    square = prism_modes(
        profile=[(0.0, 0.0), (depth, 0.0), (depth, height), (0.0, height)],
        width=width,
        count=count,
        speed_of_sound=speed_of_sound,
    )
    return verdict(modes, square, highest_used=highest_used, is_square=_is_square(points))


def _checked(corners: Corners) -> Floats:
    points = np.asarray(corners, dtype=np.float64)
    if points.shape != (8, 3) or not np.isfinite(points).all():
        raise OutOfRangeError(Name.CORNERS, len(corners), COUNT, to_be="eight-corners")
    least = float(np.linalg.det(_jacobian(points, _CUBE)).min())
    if least <= 0.0:
        raise OutOfRangeError(Name.CORNER_VOLUME, 8.0 * least, "m³", above=0)
    return points


def _volume(points: Floats) -> float:
    return float(np.linalg.det(_jacobian(points, _CUBE / math.sqrt(3.0))).sum())


def _degrees(points: Floats, count: int) -> tuple[int, int, int]:
    """Degrees that resolve as many half waves as the highest mode has along each side."""
    sides = [
        max(float(np.linalg.norm(points[a] - points[b])) for a, b in pairs)
        for pairs in (
            ((0, 1), (3, 2), (4, 5), (7, 6)),
            ((0, 3), (1, 2), (4, 7), (5, 6)),
            ((0, 4), (1, 5), (2, 6), (3, 7)),
        )
    ]
    # The air of a taper is less than its longest sides enclose, and its modes lie the higher.
    smaller = max((_volume(points) / math.prod(sides)) ** (1.0 / 3.0), LEAST)
    steps = np.arange(count + 1)
    waves = np.sqrt(sum(np.meshgrid(*[(steps / side) ** 2 for side in sides], indexing="ij")))
    highest = math.pi * float(np.sort(waves, axis=None)[count]) / smaller
    a, b, c = (math.ceil(highest * side / 2.0) + SPARE for side in sides)
    return a, b, c


def _products(columns: list[Floats], degrees: tuple[int, int, int]) -> Floats:
    """The products that matter at all points of the grid, one column each.

    A low mode has many half waves along one side or few along all: degrees within an ellipsoid.
    """
    shares = np.meshgrid(*[np.arange(d + 1) / d for d in degrees], indexing="ij")
    kept = np.nonzero(np.sum([share**2 for share in shares], axis=0) <= 1.0)
    a, b, c = (polynomials[:, which] for polynomials, which in zip(columns, kept, strict=True))
    products: Floats = a[:, None, None] * b[None, :, None] * c[None, None, :]
    return products.reshape(-1, len(kept[0]))


def _jacobian(points: Floats, at: Floats) -> Floats:
    """∂x/∂ξ of the trilinear map at points of the cube: rows of x, columns of ξ."""
    factors = (1.0 + at[:, None, :] * _CUBE[None]) / 2.0  # point × corner × direction
    slopes = np.stack(
        [_CUBE[:, i] / 2.0 * np.prod(np.delete(factors, i, axis=2), axis=2) for i in range(3)],
        axis=-1,
    )
    jacobian: Floats = np.einsum("cx,pci->pxi", points, slopes)
    return jacobian


def _is_square(points: Floats) -> bool:
    """Whether the box is a cuboid."""
    edges = points[[1, 3, 4]] - points[0]
    size = float(np.abs(edges).max())
    steps = (_CUBE + 1.0) / 2.0 @ edges + points[0]
    inner = edges @ edges.T - np.diag((edges**2).sum(axis=1))
    return bool(np.abs(steps - points).max() < 1e-9 * size and np.abs(inner).max() < 1e-9 * size**2)
