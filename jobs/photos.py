"""Photos: checked, turned upright, stripped of location, scaled; the original kept."""

from __future__ import annotations

import io
import warnings
from dataclasses import dataclass

from django.core.files.base import ContentFile
from django.utils.translation import gettext as _
from PIL import Image, ImageOps, UnidentifiedImageError

LARGEST_FILE = 25 * 1024 * 1024  # bytes
LARGEST_PICTURE = 60_000_000  # pixels: a small file can unpack to gigabytes
FORMATS = ("JPEG", "PNG", "WEBP")
LARGE, SMALL = 2400, 1000  # pixels on the long side


class UnusablePhotoError(ValueError):
    """The file cannot be kept as a photo; the message is for the person who sent it."""


@dataclass(frozen=True, kw_only=True)
class PreparedPhoto:
    """The three files a photo becomes."""

    image: ContentFile[bytes]
    small: ContentFile[bytes]
    original: ContentFile[bytes]


def prepare(raw: bytes) -> PreparedPhoto:
    """Turn what a camera sent into files that are safe to show."""
    if len(raw) > LARGEST_FILE:
        message = _("This photo is %(size)d MB; at most %(limit)d MB can be kept.")
        raise UnusablePhotoError(
            message % {"size": len(raw) / 1024**2, "limit": LARGEST_FILE / 1024**2}
        )
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            picture = Image.open(io.BytesIO(raw), formats=FORMATS)
            if picture.width * picture.height > LARGEST_PICTURE:
                raise Image.DecompressionBombError
            upright = ImageOps.exif_transpose(picture).convert("RGB")
    except (Image.DecompressionBombError, Image.DecompressionBombWarning) as error:
        raise UnusablePhotoError(_("This picture has more than 60 million pixels.")) from error
    except (UnidentifiedImageError, OSError, ValueError, SyntaxError) as error:
        raise UnusablePhotoError(
            _("This file is no photo that can be read. JPEG, PNG and WebP can be.")
        ) from error
    return PreparedPhoto(
        image=_scaled(upright, LARGE),
        small=_scaled(upright, SMALL),
        original=ContentFile(raw, "original"),
    )


def _scaled(picture: Image.Image, longest: int) -> ContentFile[bytes]:
    """Return a JPEG of at most this size, without any of the camera's notes."""
    copy = picture.copy()
    copy.thumbnail((longest, longest), Image.Resampling.LANCZOS)
    written = io.BytesIO()
    copy.save(written, "JPEG", quality=82, icc_profile=picture.info.get("icc_profile"))
    return ContentFile(written.getvalue(), "photo.jpg")
