"""A person is handed their data and erased; the car keeps its technical record."""

from __future__ import annotations

import csv
import io
import json
import stat
import zipfile
from hashlib import sha256
from pathlib import Path
from uuid import uuid4

import pytest
from django.core.files.base import ContentFile
from django.core.files.storage import default_storage
from django.db import connection, transaction
from django.urls import reverse
from django.utils import timezone

from jobs import sheets
from jobs.design.job.whole import load
from jobs.design.records.data import from_data, to_data
from jobs.keeping import erased_list
from jobs.keeping.erase import erase, replay, words_of
from jobs.keeping.erased_list import Erased
from jobs.models import (
    Conversation,
    Customer,
    Intake,
    IntakeMark,
    IssuedSheet,
    Job,
    Photo,
    PrintOrder,
    SheetKind,
    Vehicle,
    Word,
)
from jobs.sheets.printing import orders as print_orders
from tests.jobs.factories import make_step
from tests.jobs.offers import make_offer
from tests.jobs.pages.history.test_history import read

pytestmark = pytest.mark.django_db

NAME, PHONE, MAIL = "Hänna Lind-Öst", "000 555 0177", "hanna@öst.invalid"
ADDRESS, NOTES, WISHES = "12 Invented Row", "pays late, was rude", "loud, for her drive home"
TOLD = "moves house in May"
PERSONAL = [NAME, PHONE, MAIL, ADDRESS, NOTES, WISHES, TOLD, "4321.77"]


@pytest.fixture
def person(hatchback, cast, settings, tmp_path) -> Customer:
    """A customer known in every place where a person can be written."""
    settings.VAR_DIR = tmp_path
    customer = hatchback.job.vehicle.customer
    customer.name, customer.phone, customer.email = NAME, PHONE, MAIL
    customer.address, customer.notes = ADDRESS, NOTES
    customer.save()
    job = Job.objects.get(pk=hatchback.job.pk)
    job.wishes, job.budget, job.title = WISHES, "4321.77", f"Bass for {NAME}"
    job.save()
    Conversation.objects.create(job=job, text=TOLD)
    car = Vehicle.objects.get(pk=job.vehicle_id)
    car.plate, car.vin = "ZQ 417 X", "ZQ0000000000417"
    car.save()
    step = make_step(hatchback.sill, f"Call {NAME.upper()} before drilling.")
    hatchback.box.cavity_obstacles = [
        {"name": f"bag of {NAME}", "points": [[0, 0], [1, 0], [1, 1]], "start": 0, "end": None}
    ]
    hatchback.box.save()
    step.save()
    for shows in (True, False):
        files = {name: ContentFile(b"x", "x.jpg") for name in ("image", "small", "original")}
        Photo.objects.create(
            job=job, panel=hatchback.sill, taken_by=cast.installer, shows_person=shows, **files
        )
    return Customer.objects.get(pk=customer.pk)


def issue(job: Job, by, kind: str, *, fingerprint: str = "f") -> IssuedSheet:
    """Keep a sheet as issuing does, without printing it."""
    pdf = f"%PDF {kind}".encode()
    return IssuedSheet.objects.create(
        job=job, kind=kind, revision=1, paper="a4", language="en", data=to_data(load(job)),
        pdf=pdf, sha256=sha256(pdf).hexdigest(), fingerprint=fingerprint, issued_by=by,
        issued_at=timezone.now(),
    )  # fmt: skip


def everything() -> str:
    """Every row of every table, as text, with lists written as people read them."""
    said = []
    with connection.cursor() as rows:
        for table in connection.introspection.table_names(rows):
            rows.execute(f'SELECT * FROM "{table}"')
            said += [str(value) for row in rows.fetchall() for value in row]
    lists = [json.loads(one) for one in said if one.startswith(("[", "{"))]
    return "\n".join([*said, json.dumps(lists, ensure_ascii=False)])


def fresh(job: Job) -> Job:
    """The job as its pages open it."""
    return Job.objects.select_related("vehicle__customer").get(pk=job.pk)


def test_erased_nothing_of_a_person_is_left_in_any_table(hatchback, person, cast):
    """Rows, history, lists and the archive of every sheet: not one of their words."""
    job = fresh(hatchback.job)
    issue(job, cast.manager, "build")
    issue(job, cast.manager, "handover")
    before = everything()
    assert [word for word in PERSONAL if word not in before] == []
    erase(person, by=cast.manager, why="asked for it", plates=False)
    after = everything()
    assert [word for word in PERSONAL if word.casefold() in after.casefold()] == []
    assert "ZQ 417 X" in after
    assert "hanna" not in after.casefold()


def test_nobody_is_found_by_the_words_of_somebody_who_was_erased(hatchback, person, cast):
    """Not by their name under an offer, nor by what they said or left in the car."""
    offer = make_offer(hatchback.job, cast.manager, accepted_at=timezone.now(), accepted_name=NAME)
    Intake.objects.create(job=offer.job, body="estate", belongings="a violin")

    def known() -> set[bytes]:
        return {bytes(word) for word in Word.objects.values_list("word", flat=True)}

    theirs = {b"hanna", b"moves", b"violin"}
    assert theirs <= known()
    erase(person, by=cast.manager, why="asked for it", plates=False)
    assert not theirs & known()


def test_the_technical_record_stays(hatchback, person, cast):
    """The car, its boxes and runs are what they were, and a sheet can still be read back."""
    job = fresh(hatchback.job)
    sheet = issue(job, cast.manager, "build")
    runs = [str(run) for run in load(job).runs]
    erase(person, by=cast.manager, why="asked for it", plates=False)
    again = fresh(hatchback.job)
    assert [str(run) for run in load(again).runs] == runs
    assert again.vehicle.plate == "ZQ 417 X"
    assert str(again.vehicle.customer).startswith("erased ")
    sheet.refresh_from_db()
    records = from_data(sheet.data)
    assert [str(run) for run in records.runs] == runs
    assert records.job.vehicle.customer.name == ""


def test_how_a_car_came_stays_and_who_brought_it_goes(hatchback, person, cast):
    """Marks and mileage are of the car; words, signature and pictures were the person's."""
    by, at = cast.manager, timezone.now()
    Intake.objects.create(
        job=hatchback.job, body="hatchback", mileage=9, works="The radio", belongings="A coat",
        signed_name="Somebody Else", signature=[[0, 0, 900, 9]], signed_at=at,
    )  # fmt: skip
    IntakeMark.objects.create(
        job=hatchback.job, place="roof", noted_by=by, noted_at=at, image=ContentFile(b"x", "x")
    )
    files = erase(person, by=by, why="asked for it", plates=False)
    row, mark = Intake.objects.get(), IntakeMark.objects.get()
    assert (row.mileage, row.is_signed) == (9, True)
    left = (row.signed_name, row.signature, row.works, row.belongings, mark.image.name)
    assert left == ("", [], "", "", "")
    assert not {"A coat", "Somebody Else"} & {*everything().split('"')}
    assert any(name.startswith("intake/") for name in files)


def test_plates_go_where_that_is_asked_for(hatchback, person, cast):
    """Plate and VIN, in the row, its history and the archive."""
    issue(fresh(hatchback.job), cast.manager, "build")
    erase(person, by=cast.manager, why="asked for it", plates=True)
    after = everything()
    assert "ZQ 417 X" not in after
    assert "ZQ0000000000417" not in after


def test_sheets_that_carry_the_person_lose_their_bytes_and_no_others(hatchback, person, cast):
    """Number, date, revision and hash of a hand-over stay; a sheet of the car keeps its pages."""
    job = fresh(hatchback.job)
    Job.objects.filter(pk=job.pk).update(title="Bass")
    hatchback.job.panelsteps.filter(text__startswith="Call").delete()
    hatchback.box.cavity_obstacles = None
    hatchback.box.save()
    Photo.objects.filter(shows_person=True).update(shows_person=False)
    job = fresh(hatchback.job)
    kept, gone = issue(job, cast.manager, "build"), issue(job, cast.manager, "handover")
    whole = issue(job, cast.manager, "cut", fingerprint="")
    erase(person, by=cast.manager, why="asked for it", plates=False)
    for sheet in (kept, gone, whole):
        was = sheet.sha256, sheet.revision, sheet.issued_at
        sheet.refresh_from_db()
        assert (sheet.sha256, sheet.revision, sheet.issued_at) == was
    assert bytes(kept.pdf) == b"%PDF build"
    assert kept.erased_at is None
    for sheet in (gone, whole):
        assert bytes(sheet.pdf) == b""
        assert sheet.erased_at is not None


def test_what_is_being_issued_meanwhile_is_not_kept(hatchback, person, cast, settings, monkeypatch):
    """The print loses its order with the erasure, and its sheet with the order."""
    settings.PRINT_IN_REQUEST = False
    job, options = fresh(hatchback.job), sheets.Options(paper="a4", language="en")
    order = print_orders.ask_to_issue(job, SheetKind.HANDOVER, options, cast.manager, uuid4())
    taken = print_orders.take("a process", order.pk)
    printed = []

    def issuing(*_given: object, kept, **_more: object) -> None:
        erase(person, by=cast.manager, why="asked for it", plates=False)
        with transaction.atomic():
            printed.append(issue(job, cast.manager, "handover"))
            kept(printed[0])

    monkeypatch.setattr(print_orders, "issue", issuing)
    print_orders.carry_out(taken)
    assert len(printed) == 1
    assert not IssuedSheet.objects.exists()
    assert not PrintOrder.objects.exists()


def test_a_name_typed_into_a_title_takes_the_pages_of_every_sheet(hatchback, person, cast):
    """What may have printed it is not kept on trust."""
    sheet = issue(fresh(hatchback.job), cast.manager, "build")
    erase(person, by=cast.manager, why="asked for it", plates=False)
    sheet.refresh_from_db()
    assert bytes(sheet.pdf) == b""


def test_photos_of_a_person_go_with_their_files(hatchback, person, cast):
    """Those that show a person or a plate; the others are of the car."""
    personal = Photo.objects.get(shows_person=True)
    names = [personal.image.name, personal.small.name, personal.original.name]
    files = erase(person, by=cast.manager, why="asked for it", plates=False)
    assert sorted(files) == sorted(names)
    assert Photo.objects.count() == 1
    assert not Photo.objects.get().shows_person


def test_the_page_asks_for_the_name_and_a_reason(
    hatchback, person, browse, django_capture_on_commit_callbacks
):
    """A wrong name, no reason, or the name in the reason changes nothing; what was typed stays."""
    url = reverse("customer-data", args=[hatchback.code])
    client = browse("manager")
    assert NAME in client.get(url).content.decode()
    for sent in (
        {"name": "Hans", "why": "asked for it"},
        {"name": NAME, "why": ""},
        {"name": NAME, "why": f"{NAME} asked"},
    ):
        answer = client.post(url, sent)
        assert answer.status_code == 422
        assert sent["name"] in answer.content.decode()
    assert Customer.objects.get(pk=person.pk).name == NAME
    for role in ("consultant", "designer", "installer"):
        assert browse(role).post(url, {"name": NAME, "why": "asked for it"}).status_code == 403
    names = [Photo.objects.get(shows_person=True).image.name]
    with django_capture_on_commit_callbacks(execute=True):
        answer = client.post(url, {"name": f" {NAME.lower()} ", "why": "asked for it"})
    assert answer.status_code == 302
    assert not any(default_storage.exists(name) for name in names)
    customer = reverse("customer", args=[hatchback.code])
    said = read(client, customer)
    assert "by Max Lead: asked for it" in said
    assert NAME not in said
    assert client.get(url).status_code == 404
    assert client.post(customer, {"name": "Somebody", "version": "99"}).status_code == 422
    assert Customer.objects.get(pk=person.pk).name == ""
    (listed,) = erased_list.read(erased_list.list_here())
    assert listed.customer == person.pk
    text = erased_list.list_here().read_text()
    assert not [word for word in PERSONAL if word in text]
    assert stat.S_IMODE(erased_list.list_here().stat().st_mode) == 0o600
    past = read(client, f"{reverse('history', args=[hatchback.code])}?of=customer-{person.pk}")
    assert "asked for it" in past


def test_a_sheet_that_was_erased_says_so(hatchback, person, cast, browse):
    """410, with number, date and hash; the list of sheets says it too."""
    sheet = issue(fresh(hatchback.job), cast.manager, "handover")
    erase(person, by=cast.manager, why="asked for it", plates=False)
    answer = browse("manager").get(reverse("sheet-issued", args=[hatchback.code, sheet.pk]))
    assert answer.status_code == 410
    assert sheet.sha256 in answer.content.decode()
    assert "erased on" in read(browse("manager"), reverse("sheets", args=[hatchback.code]))


def test_the_file_for_the_person_holds_what_is_kept_of_them(hatchback, person, cast, browse):
    """Plain names, tables a table program does not run, their photos and hand-overs; for the
    manager only."""
    Customer.objects.filter(pk=person.pk).update(notes="=1+1")
    issue(fresh(hatchback.job), cast.manager, "handover")
    issue(fresh(hatchback.job), cast.manager, "build")
    answer = browse("manager").get(reverse("customer-file", args=[hatchback.code]))
    assert NAME not in answer["Content-Disposition"]
    with zipfile.ZipFile(io.BytesIO(answer.content)) as file:
        names = file.namelist()
        data = json.loads(file.read("data.json"))
        rows = list(csv.DictReader(io.StringIO(file.read("person.csv").decode())))
    assert data["person"][0]["name"] == NAME
    assert data["jobs"][0]["what the customer wants, in their words"] == WISHES
    assert data["jobs"][0]["budget"] == "4321.77"
    assert data["cars"][0]["number plate"] == "ZQ 417 X"
    assert rows[0]["notes"] == "'=1+1"
    sheets = [name for name in names if name.startswith("sheets/")]
    assert sheets == ["sheets/J-0417-handover-1.pdf"]
    assert len([name for name in names if name.startswith("photos/")]) == 1


def test_who_was_erased_stays_erased_after_an_older_database_comes_back(person, cast):
    """The list knows them by key and by when their row began; somebody else is left alone."""
    began = erased_list.began(person)
    assert began
    other = Customer.objects.create(name="Somebody Else")
    at = timezone.now().isoformat()
    listed = [
        Erased(customer=person.pk, began=began, at=at, plates=True),
        Erased(customer=other.pk, began="2001-01-01T00:00:00+00:00", at=at, plates=False),
        Erased(customer=999_999, began="", at=at, plates=False),
    ]
    count, files = replay(listed)
    assert count == 1
    assert len(files) == 3
    assert NAME not in everything()
    other.refresh_from_db()
    assert other.name == "Somebody Else"
    assert replay(listed) == (0, [])


def test_lists_are_put_together(tmp_path: Path):
    """Each person once, whichever list names them; no list names nobody."""
    one = Erased(customer=1, began="a", at="2026-01-01T00:00:00+00:00", plates=False)
    two = Erased(customer=2, began="b", at="2026-01-02T00:00:00+00:00", plates=True)
    first, second = tmp_path / "first.json", tmp_path / "second.json"
    erased_list.write(first, [two, one])
    erased_list.write(second, [one])
    assert erased_list.read(first, second, tmp_path / "none.json") == [one, two]
    assert erased_list.read(tmp_path / "none.json") == []
    for wrong in ("{", "[1]", '[{"name": "x"}]', "7"):
        second.write_text(wrong)
        with pytest.raises(erased_list.UnreadableListError, match=r"second\.json"):
            erased_list.read(first, second)


def test_short_names_are_not_looked_for_in_other_words(hatchback):
    """Li stands in too many words."""
    customer = hatchback.job.vehicle.customer
    customer.name, customer.phone, customer.email = "Li", "", ""
    assert "Li" not in words_of(customer)
