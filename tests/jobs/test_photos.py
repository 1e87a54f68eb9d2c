"""Photos are checked, turned upright, stripped of where they were taken, and kept."""

from __future__ import annotations

import io
import random
import struct
import subprocess
import sys
import zlib
from pathlib import Path

import pi_heif
import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse
from PIL import Image

from jobs import photos
from jobs.models import Photo
from jobs.pages.bay.pictures import PhotoForm
from tests.jobs.heic import TURNED

ORIENTATION, GPS = 0x0112, 0x8825  # Exif 2.3, tables 4 and 8


def _jpeg(*, turned: int = 1, located: bool = False) -> bytes:
    """A landscape of 60 × 40 whose left half is red, as a camera lying on its side stores it."""
    picture = Image.new("RGB", (60, 40), "blue")
    picture.paste("red", (0, 0, 30, 40))
    exif = Image.Exif()
    exif[ORIENTATION] = turned
    if located:
        exif.get_ifd(GPS)[1] = "N"
        exif.get_ifd(GPS)[2] = (51.0, 30.0, 0.0)
    written = io.BytesIO()
    picture.save(written, "JPEG", exif=exif)
    return written.getvalue()


def _bomb() -> bytes:
    """A PNG of a few bytes that claims 100 000 × 100 000 pixels."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        check = struct.pack(">I", zlib.crc32(kind + data))
        return struct.pack(">I", len(data)) + kind + data + check

    head = struct.pack(">IIBBBBB", 100_000, 100_000, 8, 2, 0, 0, 0)
    parts = chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(b"")) + chunk(b"IEND", b"")
    return b"\x89PNG\r\n\x1a\n" + parts


def _blank(kind: str, wide: int, high: int) -> bytes:
    """A picture of one colour: many pixels in few bytes."""
    written = io.BytesIO()
    Image.new("L", (wide, high)).save(written, kind)
    return written.getvalue()


class Unread(io.BytesIO):
    """A file nobody may read."""

    def read(self, *_size):
        pytest.fail("it was read")


def test_a_photo_is_turned_upright():
    """Orientation 6 means: turn a quarter clockwise, so what lay left comes to stand on top."""
    kept = photos.prepare(_jpeg(turned=6))
    picture = Image.open(kept.image)
    assert picture.size == (40, 60)
    red, _green, blue = picture.getpixel((20, 10))
    assert red > 200 > 60 > blue
    assert picture.getexif().get(ORIENTATION, 1) == 1


def test_a_phones_own_format_is_read_upright_and_without_its_notes():
    """What lay left comes to stand on top, turned once and not twice (ISO/IEC 23008-12: irot)."""
    kept = photos.prepare(TURNED)
    assert kept.proportion == pytest.approx(96 / 64)
    picture = Image.open(kept.image)
    assert (picture.format, picture.size) == ("JPEG", (64, 96))
    red, _green, blue = picture.getpixel((32, 10))
    assert blue > 120 > 60 > red
    assert min(picture.getpixel((32, 80))) > 150
    assert b"Exif" not in kept.image.open().read()
    assert kept.original.read() == TURNED


def test_nothing_of_the_phones_format_can_be_written():
    """The library that reads it has no encoder, so none under the GPL."""
    assert set(pi_heif.libheif_info()["encoders"]) <= {"mask"}
    assert "HEIF" not in Image.SAVE


def test_a_photo_says_nothing_of_where_it_was_taken():
    """No camera notes in what is shown; the original stays as it came."""
    raw = _jpeg(located=True)
    assert Image.open(io.BytesIO(raw)).getexif().get_ifd(GPS)
    kept = photos.prepare(raw)
    for shown in (kept.image, kept.small):
        assert not Image.open(shown).getexif().get_ifd(GPS)
        assert b"Exif" not in shown.open().read()
    assert kept.original.read() == raw


def test_a_large_photo_is_scaled():
    """The long side shrinks to the sizes that pages and sheets show."""
    written = io.BytesIO()
    Image.new("RGB", (3000, 1500)).save(written, "PNG")
    kept = photos.prepare(written.getvalue())
    assert Image.open(kept.image).size == (photos.LARGE, photos.LARGE // 2)
    assert Image.open(kept.small).size == (photos.SMALL, photos.SMALL // 2)


@pytest.mark.parametrize(
    "raw",
    [
        *(b"", b"no photo at all", b"%PDF-1.7", b"<svg xmlns='x'/>", _jpeg()[:300], _bomb()),
        *(TURNED[:300], _blank("PNG", 12_000, 12_000), _blank("JPEG", 9248, 6936)),
    ],
    ids=["empty", "text", "pdf", "svg", "cut", "bomb", "cut HEIC", "12 000²", "64 MP"],
)
def test_what_is_no_photo_is_refused(raw):
    """Whatever cannot be shown safely is refused in words."""
    with pytest.raises(photos.UnusablePhotoError, match=r"photo|pixels"):
        photos.prepare(raw)


def test_a_photo_of_200_megabytes_is_never_read():
    """It is told by its size, before a byte of it is read."""
    upload = SimpleUploadedFile("big.jpg", b"x", "image/jpeg")
    upload.size = 200 * 1024**2
    upload.file = Unread()
    form = PhotoForm({"caption": "behind the card"}, {"photo": upload})
    assert not form.is_valid()
    assert form.errors["photo"] == ["This photo is 200 MB; at most 25 MB can be kept."]


@pytest.mark.django_db
def test_a_photo_is_kept_and_opened_through_its_job(hatchback, van, browse):
    """An installer keeps it; members see it; strangers and other jobs do not."""
    job = hatchback.job
    url = reverse("photo-add", args=[job.code, hatchback.boot_floor.pk])
    client = browse("installer")
    assert browse("stranger").post(url).status_code == 404
    wrong = {"photo": SimpleUploadedFile("a.jpg", b"not one"), "caption": "left, low"}
    answer = client.post(url, wrong)
    assert answer.status_code == 422
    assert "left, low" in answer.content.decode()
    assert 'id="id_photo_error"' in answer.content.decode()
    assert not Photo.objects.exists()
    right = {"photo": SimpleUploadedFile("a.jpg", _jpeg(located=True)), "caption": "left, low"}
    assert client.post(url, right).status_code == 302
    photo = Photo.objects.get()
    seen = browse("consultant").get(reverse("photo", args=[job.code, photo.pk]))
    assert Image.open(io.BytesIO(b"".join(seen.streaming_content))).size == (60, 40)
    assert browse("stranger").get(reverse("photo", args=[job.code, photo.pk])).status_code == 404
    assert browse("manager").get(reverse("photo", args=[van.code, photo.pk])).status_code == 404
    for file in (photo.image, photo.small, photo.original):
        file.close()


@pytest.mark.django_db
def test_a_photo_sent_twice_is_kept_once(hatchback, browse):
    """A bad network makes a thumb press twice: one photo stays."""
    job = hatchback.job
    url = reverse("photo-add", args=[job.code, hatchback.boot_floor.pk])
    client = browse("installer")
    token = client.get(url).context["form"]["entry_token"].value()
    for _ in range(2):
        sent = {"photo": SimpleUploadedFile("a.jpg", _jpeg()), "entry_token": token}
        assert client.post(url, sent).status_code == 302
    assert Photo.objects.count() == 1


def test_the_form_for_a_photo_opens_for_members_only(hatchback, browse):
    """The button behind each panel leads to a form; a stranger gets 404, PUT is refused."""
    job = hatchback.job
    url = reverse("photo-add", args=[job.code, hatchback.boot_floor.pk])
    assert browse("installer").get(url).status_code == 200
    assert browse("stranger").get(url).status_code == 404
    assert browse("installer").put(url).status_code == 405


def _measured(picture: str, path: Path) -> tuple[float, str]:
    """Prepare a photo in a process of its own; returns how far its memory rose, in MB, and why not.

    The picture is made in another one, so that what made it does not count.
    """
    subprocess.run([sys.executable, "-c", f"from PIL import Image; {picture}", path], check=True)
    script = """if True:
        import resource, sys
        from django.conf import settings
        settings.configure(USE_I18N=False)
        from jobs import photos
        raw = open(sys.argv[1], "rb").read()
        before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
        try:
            photos.prepare(raw)
            said = ""
        except photos.UnusablePhotoError as error:
            said = str(error)
        print((resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before) / 1024, said)
    """
    told = subprocess.run(
        [sys.executable, "-c", script, path], check=True, capture_output=True, text=True
    )
    rise, _space, said = told.stdout.strip().partition(" ")
    return float(rise), said


@pytest.mark.parametrize(
    ("picture", "refused"),
    [
        ("Image.new('RGB', (10000, 6000), 'red').save(__import__('sys').argv[1], 'PNG')", True),
        ("Image.new('RGB', (6000, 4000), 'red').save(__import__('sys').argv[1], 'PNG')", False),
        ("Image.new('RGB', (10000, 6000), 'red').save(__import__('sys').argv[1], 'JPEG')", False),
    ],
)
def test_a_large_picture_takes_little_memory(tmp_path, picture, refused):
    """60 million pixels are refused as PNG and kept as JPEG, in less than 200 MB either way."""
    rise, said = _measured(picture, tmp_path / "large")
    assert rise < 200
    assert ("million" in said) is refused, said


def test_damaged_notes_of_a_camera_are_no_reason_to_fail():
    """Whatever stands where the notes should, the photo is kept or refused in words."""
    whole = _jpeg(turned=6, located=True)
    start, chance, kept = whole.index(b"Exif"), random.Random(2), 0
    for _ in range(1500):
        damaged = bytearray(whole)
        for _ in range(chance.randint(1, 6)):
            damaged[chance.randrange(start, start + 160)] = chance.randrange(256)
        try:
            photos.prepare(bytes(damaged))
            kept += 1
        except photos.UnusablePhotoError:
            pass
    assert kept > 700
