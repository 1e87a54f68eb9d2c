"""The page behind a panel's code, and its copy as files: what it says, and what it never says."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from django.conf import settings
from django.core.files.base import ContentFile
from django.core.management import CommandError, call_command
from django.db import connection
from django.db.models import CharField, TextField
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from jobs import models
from jobs.pages.public.panel import STYLES, page_of
from jobs.pages.public.published import _put, publish
from jobs.panel_codes import BYTES, give_codes
from tests.jobs.factories import make_content, make_item, make_job, make_panel, make_part, make_rows

pytestmark = pytest.mark.django_db
MARKER = "qq-marker-qq"
HEAVIEST = 100_000  # bytes without photos


def address(panel: models.Panel) -> str:
    """Where a panel's page is."""
    panel.refresh_from_db()
    return reverse("panel-page", args=[panel.token])


def read(client, panel: models.Panel, query: str = "", **more) -> str:
    """What the page says."""
    return client.get(address(panel) + query, **more).content.decode()


def take_photo(panel: models.Panel, by: models.User, **more) -> models.Photo:
    """A photo of three bytes."""
    files = {name: ContentFile(b"\xff\xd8\xff", "x.jpg") for name in ("image", "small", "original")}
    return models.Photo.objects.create(job=panel.job, panel=panel, taken_by=by, **files, **more)


@pytest.fixture
def coded(hatchback, public):
    """The hatchback, each of its panels with a code."""
    give_codes(hatchback.job)
    return hatchback


def test_codes_cannot_be_guessed_and_are_each_their_own(coded):
    """128 bits of chance each; given once, they stay."""
    tokens = list(coded.job.panels.values_list("token", flat=True))
    assert len(set(tokens)) == len(tokens) >= 4
    assert BYTES * 8 == 128
    assert all(len(token) == 22 for token in tokens)
    give_codes(coded.job)
    assert list(coded.job.panels.values_list("token", flat=True)) == tokens


def test_a_page_says_what_is_behind_its_panel(coded, outside):
    """Contents, cables, fuses with rating and place, sources, airbag text, the workshop."""
    text = " ".join(read(outside, coded.boot_floor).split())
    for words in (
        "Floor of the boot", "two bolts", "As its sheet says.", "four nuts", coded.battery.name,
        coded.main_run.label, "000 555 0111", coded.code, str(coded.sub.part),
        "stays in place, unplugged and insulated",
    ):  # fmt: skip
        assert words in text, words
    assert "As the manual of this car says." in read(outside, coded.door_left)


def test_high_voltage_comes_first(coded, outside):
    """Before the airbag and before what to isolate; where nobody wrote it down, that is said."""
    vehicle = coded.job.vehicle
    vehicle.energy = "battery"
    vehicle.save()
    text = read(outside, coded.door_left)
    assert text.index("orange cables") < text.index("Airbag") < text.index("Isolate first")
    vehicle.energy = ""
    vehicle.save()
    assert "Nobody has written down whether this car has high voltage" in read(
        outside, coded.door_left
    )


def test_an_empty_list_is_not_printed_as_nothing(outside, public, cast):
    """Of a panel nobody wrote anything about, nothing is recorded, and that is all that is said."""
    job = make_job()
    panel = make_panel(job, "bare", removal="", airbag_near=None)
    give_codes(job)
    text = read(outside, panel)
    assert text.count("nothing recorded") == 6
    assert "Nobody has written down whether an airbag" in text


def test_nothing_private_and_nothing_of_a_person_is_told(coded, outside, cast, tmp_path):
    """Texts of customer, people and job filled with a marker: on no page and in no file."""
    by = cast.installer
    for record in (coded.job.vehicle.customer, *models.User.objects.all(), coded.job):
        for field in record._meta.concrete_fields:
            kept = field.choices or field.unique or field.name == "password"
            if isinstance(field, CharField | TextField) and not kept:
                setattr(record, field.attname, MARKER)
        record.save()
    vehicle = coded.job.vehicle
    vehicle.plate, vehicle.vin, vehicle.colour = MARKER, MARKER, MARKER
    vehicle.save()
    tracker = make_item(coded.job, make_part(f"{MARKER} tracker"), MARKER, private=True)
    models.EquipmentItem.objects.exclude(pk=tracker.pk).update(serial=MARKER)
    make_content(coded.boot_floor, equipment=tracker, fixing=MARKER)
    make_content(coded.boot_floor, description=MARKER, private=True)
    models.PowerNode.objects.filter(pk=coded.block.pk).update(
        name=MARKER, place=MARKER, equipment=tracker
    )
    take_photo(coded.boot_floor, by, caption=MARKER)
    call_command("publish", str(tmp_path / "web"))
    texts = [
        read(outside, panel, f"?l={code}")
        for panel in coded.job.panels.all()
        for code in ("en", "de")
    ]
    files = [file.read_text() for file in (tmp_path / "web").rglob("*.html")]
    assert len(texts) == len(files) == 8
    for text in [*texts, *files]:
        assert MARKER not in text
        assert "private" not in text
    assert "More is behind it: ask the workshop." in texts[0]
    # A cable that leads there keeps its label and its fuse.
    assert coded.main_run.label in texts[0]
    assert "ask the workshop" in texts[0]


def test_only_photos_that_somebody_released_are_shown(coded, outside, cast, browse):
    """Off by default; on by who may spec; the file of any other is not found."""
    photo = take_photo(coded.boot_floor, cast.installer, caption="the floor")
    url = reverse(
        "panel-page-photo", args=[coded.job.panels.get(pk=photo.panel_id).token, photo.pk]
    )
    assert outside.get(url).status_code == 404
    assert "the floor" not in read(outside, coded.boot_floor)
    show = reverse("photo-show", args=[coded.code, photo.pk])
    assert browse("installer").post(show, {"shown": "1"}).status_code == 403
    browse("designer").post(show, {"shown": "1"})
    assert url in read(outside, coded.boot_floor)
    answer = outside.get(url)
    assert (answer.status_code, answer["Cache-Control"]) == (200, "no-store")
    assert b"".join(answer) == b"\xff\xd8\xff"
    other = reverse("panel-page-photo", args=[coded.job.panels.last().token, photo.pk])
    assert outside.get(other).status_code == 404
    browse("designer").post(show, {"shown": "0"})
    assert outside.get(url).status_code == 404


def test_a_withdrawn_code_says_so_and_a_new_one_opens(coded, outside, browse):
    """410 for the old one for ever, also of a panel that was taken out; issuing makes none anew."""
    panel = coded.boot_floor
    old = address(panel)
    browse("designer").post(reverse("panel-code-renew", args=[coded.code, panel.pk]))
    answer = outside.get(old)
    assert answer.status_code == 410
    assert "This code was withdrawn" in answer.content.decode()
    assert "000 555 0111" in answer.content.decode()
    new = address(panel)
    assert new != old
    assert outside.get(new).status_code == 200
    browse("designer").post(reverse("panel-code-withdraw", args=[coded.code, panel.pk]))
    assert outside.get(new).status_code == outside.get(old).status_code == 410
    give_codes(coded.job)
    panel.refresh_from_db()
    assert panel.token is None
    there = address(coded.sill)
    coded.sill.remove()
    assert outside.get(there).status_code == 410


def test_what_goes_with_the_page(coded, outside):
    """In no list, in no cache, without a cookie and without a script, and light."""
    answer = outside.get(address(coded.boot_floor))
    assert "noindex" in answer["X-Robots-Tag"]
    assert answer["Cache-Control"] == "no-store"
    assert answer["Referrer-Policy"] == "no-referrer"
    assert not answer.cookies
    assert b"<script" not in answer.content
    assert b"<form" not in answer.content
    static = settings.BASE_DIR / "jobs" / "static"
    files = [static / name for name in STYLES]
    # What few pages need is asked for where it stands.
    fonts = list((static / "jobs" / "fonts").glob("*-[0-9]00.woff2"))
    assert len(fonts) == 3
    weight = sum(file.stat().st_size for file in [*files, *fonts])
    assert len(answer.content) + weight < HEAVIEST


def test_the_visitor_reads_their_own_language(coded, outside):
    """The browser's, or what the address asks for; the switch keeps the address."""
    panel = coded.boot_floor
    german = {"headers": {"accept-language": "de", "host": "panels.example"}}
    assert '<html lang="de">' in read(outside, panel, **german)
    assert "Fixings:" not in read(outside, panel, "?l=de")
    assert '<html lang="en">' in read(outside, panel, "?l=en", **german)
    assert '<html lang="en">' in read(outside, panel, "?l=xx")
    assert 'href="?l=de"' in read(outside, panel)


def test_a_page_asks_no_more_of_twenty_rows_than_of_one(shelf, public, outside):
    """The same queries whatever is behind the panel and however many panels the job has."""
    job = make_job()
    make_rows(job, 1)
    give_codes(job)
    url = address(job.panels.first())
    counts = []
    for more in (0, 19):
        make_rows(job, more)
        outside.get(url)
        with CaptureQueriesContext(connection) as seen:
            assert outside.get(url).status_code == 200
        counts.append(len(seen))
    # What a job is loaded with: each kind of row, each list kept as rows, each kind of part.
    assert counts[0] == counts[1] <= 59


def test_files_are_whole_the_same_again_and_without_the_withdrawn(
    coded, browse, cast, tmp_path, capsys
):
    """Style and photos lie beside each page; nothing is written twice; a withdrawn page goes."""
    take_photo(coded.boot_floor, cast.installer, caption="the floor", shown_outside=True)
    web = tmp_path / "web"
    call_command("publish", str(web))
    token = coded.job.panels.first().token
    assert {file.name for file in (web / token).iterdir()} == {
        "index.html", "de.html", "style.css", "photo-1.jpg"
    }  # fmt: skip
    text = (web / token / "index.html").read_text()
    assert 'href="style.css"' in text
    assert 'src="photo-1.jpg"' in text
    assert 'href="de.html"' in text
    assert "/static/" not in text
    before = {file: (file.read_bytes(), file.stat().st_mtime_ns) for file in web.rglob("*.*")}
    call_command("publish", str(web))
    assert "Nothing has changed" in capsys.readouterr().out
    assert {f: (f.read_bytes(), f.stat().st_mtime_ns) for f in web.rglob("*.*")} == before
    browse("designer").post(reverse("panel-code-withdraw", args=[coded.code, coded.boot_floor.pk]))
    call_command("publish", str(web))
    assert "1 folders of withdrawn codes" in capsys.readouterr().out
    assert not (web / token).exists()
    assert [path.name for path in tmp_path.iterdir()] == ["web"]
    listed = json.loads((web / "written.json").read_text())["files"]
    assert len(listed) == 3 * 3


def test_what_was_not_written_here_is_never_touched(coded, tmp_path, settings):
    """A foreign file, a changed one, a foreign list, no address: refused, and all is as before."""
    web = tmp_path / "web"
    web.mkdir()
    (web / "mine.html").write_text("mine")
    with pytest.raises(CommandError, match="mine"):
        call_command("publish", str(web))
    assert (web / "mine.html").read_text() == "mine"
    (web / "mine.html").unlink()
    call_command("publish", str(web))
    page = next(web.rglob("index.html"))
    page.write_text("changed")
    with pytest.raises(CommandError, match="index"):
        call_command("publish", str(web))
    assert page.read_text() == "changed"
    settings.PUBLIC = ""
    with pytest.raises(CommandError, match="UNDERTRIM_PUBLIC"):
        call_command("publish", str(tmp_path / "other"))
    assert not (tmp_path / "other").exists()


def test_a_link_in_the_folder_is_not_followed(coded, tmp_path):
    """A page that was moved away and linked to says the same, and is still not what was written."""
    web = tmp_path / "web"
    call_command("publish", str(web))
    page = next(web.glob("*/index.html"))
    page.rename(tmp_path / "elsewhere.html")
    page.symlink_to(tmp_path / "elsewhere.html")
    with pytest.raises(CommandError, match="index"):
        call_command("publish", str(web))


def test_without_a_public_address_the_panels_page_says_what_to_set(hatchback, browse, settings):
    """Once, to those who may spec, and it offers nothing that would lead nowhere."""
    url = reverse("panels", args=[hatchback.code])
    settings.PUBLIC = ""
    text = browse("designer").get(url).content.decode()
    assert text.count("UNDERTRIM_PUBLIC") == 1
    assert "code/" not in text
    assert "UNDERTRIM_PUBLIC" not in browse("installer").get(url).content.decode()


def test_a_page_of_a_panel_reads_the_job_of_that_panel(coded):
    """The page is of the panel it was asked for."""
    assert [page_of(panel).panel.pk for panel in coded.job.panels.all()] == [
        panel.pk for panel in coded.job.panels.all()
    ]


def test_a_photo_whose_file_is_lost_is_counted_and_its_page_is_written(coded, cast, tmp_path):
    """The other photo keeps its name and its place."""
    lost = take_photo(coded.boot_floor, cast.installer, caption="lost", shown_outside=True)
    take_photo(coded.boot_floor, cast.installer, caption="the floor", shown_outside=True)
    lost.small.storage.delete(lost.small.name)
    outcome = publish(tmp_path / "web")
    assert (outcome.photos, outcome.lost) == (1, 1)
    token = coded.job.panels.get(pk=coded.boot_floor.pk).token
    assert (tmp_path / "web" / str(token) / "photo-1.jpg").exists()


@pytest.mark.parametrize("act", ["rename", "write_bytes"])
def test_a_folder_that_cannot_be_put_in_place_leaves_the_one_before(act, tmp_path, monkeypatch):
    """What was there is there again, and nothing lies beside it."""
    web = tmp_path / "web"
    web.mkdir()
    (web / "a.html").write_text("before")
    as_it_is = getattr(Path, act)

    def fails(path: Path, *given: object) -> object:
        if ".new-" in str(path):
            raise OSError("no room")
        return as_it_is(path, *given)

    monkeypatch.setattr(Path, act, fails)
    with pytest.raises(OSError, match="no room"):
        _put(web, {"a.html": b"after"}, {})
    assert (web / "a.html").read_text() == "before"
    assert [path.name for path in tmp_path.iterdir()] == ["web"]


def test_a_first_folder_that_cannot_be_written_leaves_nothing(tmp_path, monkeypatch):
    """What went wrong is told as it was, and no half of it lies about."""

    def fails(path: Path, content: bytes) -> int:
        raise OSError("no room")

    monkeypatch.setattr(Path, "write_bytes", fails)
    with pytest.raises(OSError, match="no room"):
        _put(tmp_path / "web", {"a.html": b"first"}, {})
    assert list(tmp_path.iterdir()) == []
