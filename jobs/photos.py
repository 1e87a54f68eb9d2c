"""Photos: checked, turned upright, stripped of location, scaled; the original kept."""

from __future__ import annotations

import io
import struct
import warnings
from dataclasses import dataclass
from typing import IO, Any

from django.core.files.base import ContentFile
from django.core.files.uploadedfile import UploadedFile
from django.utils.translation import gettext as _
from pi_heif import register_heif_opener
from PIL import Image, UnidentifiedImageError

LARGEST_FILE = 25 * 1024 * 1024  # bytes
# A small file can unpack to gigabytes. A JPEG is read at a fraction of its size; everything else
# is read whole, at four bytes for each of its pixels.
LARGEST_JPEG, LARGEST_OTHER = 60_000_000, 25_000_000  # pixels
FORMATS = ("JPEG", "PNG", "WEBP", "HEIF")
# What phones write by themselves. Its frame says how it is turned (ISO/IEC 23008-12), and it comes
# out upright; the previews that may lie within it are nobody's photo.
register_heif_opener(thumbnails=False, depth_images=False, aux_images=False, decode_threads=1)
LARGE, SMALL, STAMP = 2400, 1000, 240  # pixels on the long side
ORIENTATION = 0x0112  # Exif 2.3, table 4
UPRIGHT = {
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}

# What the reader of pictures raises over bytes that are none.
BROKEN = (
    OSError, ValueError, TypeError, KeyError, IndexError, SyntaxError, OverflowError, struct.error,
)  # fmt: skip


class UnusablePhotoError(ValueError):
    """The file cannot be kept as a photo; the message is for the person who sent it."""


@dataclass(frozen=True, kw_only=True)
class PreparedPhoto:
    """The three files a photo becomes, and its height over its width."""

    image: ContentFile[bytes]
    small: ContentFile[bytes]
    original: ContentFile[bytes]
    proportion: float

    @property
    def fields(self) -> dict[str, Any]:
        """All of it by the fields of a photo."""
        return vars(self)


def prepared(upload: UploadedFile[bytes]) -> PreparedPhoto:
    """Prepare a file that was sent; told by its size before it is read: 200 MB are never read."""
    _refuse_larger(upload.size or 0)
    return prepare(upload.read())


def stamp(upload: UploadedFile[bytes]) -> bytes:
    """Return a picture that was sent, as large as a list of parts shows it."""
    with Image.open(prepared(upload).small) as picture:
        return bytes(_written(_fitted(picture, STAMP)).read())


def _refuse_larger(size: int) -> None:
    if size > LARGEST_FILE:
        message = _("This photo is %(size)d MB; at most %(limit)d MB can be kept.")
        raise UnusablePhotoError(
            message % {"size": size / 1024**2, "limit": LARGEST_FILE / 1024**2}
        )


def prepare(raw: bytes) -> PreparedPhoto:
    """Turn what a camera sent into files that are safe to show."""
    _refuse_larger(len(raw))
    try:
        with warnings.catch_warnings():
            # Size is told below; what else is odd about a file says nothing to anybody.
            warnings.simplefilter("ignore")
            picture = Image.open(io.BytesIO(raw), formats=FORMATS)
            most = LARGEST_JPEG if picture.format == "JPEG" else LARGEST_OTHER
            large = None if picture.width * picture.height > most else _read(picture)
    except Image.DecompressionBombError:
        most, large = LARGEST_JPEG, None
    except (UnidentifiedImageError, *BROKEN) as error:
        raise UnusablePhotoError(
            _("This file is no photo that can be read. JPEG, HEIC, PNG and WebP can be.")
        ) from error
    if large is None:
        message = _(
            "This picture has more than %(most)d million pixels: set the camera to fewer, and "
            "take it again."
        )
        raise UnusablePhotoError(message % {"most": most / 1_000_000})
    return PreparedPhoto(
        image=_written(large),
        small=_written(_fitted(large.copy(), SMALL)),
        original=ContentFile(raw, "original"),
        proportion=large.height / large.width,
    )


def proportion_of(file: IO[bytes]) -> float | None:
    """Height over width of a photo that is kept; None where its file cannot be read."""
    try:
        with file, Image.open(file) as picture:
            return picture.height / picture.width
    except (UnidentifiedImageError, *BROKEN):
        return None


def is_kept(file: IO[bytes]) -> bool:
    """Whether this is a photo as one is kept: a JPEG no larger than it is shown."""
    try:
        with file, Image.open(file, formats=("JPEG",)) as picture:
            return max(picture.size) <= LARGE
    except (UnidentifiedImageError, Image.DecompressionBombError, *BROKEN):
        return False


def _read(picture: Image.Image) -> Image.Image:
    """Read a picture no larger than it is kept, then turn it upright."""
    turn = _turn(picture)
    picture.draft("RGB", (LARGE, LARGE))  # a JPEG is then decoded at a half, quarter or eighth
    picture.load()
    small = _fitted(picture, LARGE)
    if small.mode != "RGB":
        small = small.convert("RGB")
    return small.transpose(turn) if turn is not None else small


def _turn(picture: Image.Image) -> Image.Transpose | None:
    """How to turn it, by the camera's notes; damaged notes tell nothing."""
    try:
        return UPRIGHT.get(picture.getexif().get(ORIENTATION, 1))
    except BROKEN:
        return None


def _fitted(picture: Image.Image, longest: int) -> Image.Image:
    """Scale the picture to at most this many pixels on its long side."""
    if picture.mode not in ("RGB", "L", "RGBA", "CMYK"):
        picture = picture.convert("RGB")  # a palette cannot be scaled
    picture.thumbnail((longest, longest), Image.Resampling.LANCZOS)
    return picture


def _written(picture: Image.Image) -> ContentFile[bytes]:
    """Return it as a JPEG, without any of the camera's notes."""
    written = io.BytesIO()
    picture.save(written, "JPEG", quality=82, icc_profile=picture.info.get("icc_profile"))
    return ContentFile(written.getvalue(), "photo.jpg")
