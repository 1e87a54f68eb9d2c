"""A supplier's list: read, shown as what it would do, written whole or not at all."""

from __future__ import annotations

import datetime as dt
import io
from decimal import Decimal
from zipfile import ZIP_DEFLATED, ZipFile

import pytest
from django import forms
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse
from openpyxl import Workbook

from jobs import search
from jobs.models import Conductor, Driver, IssuedSheet, Offer, Part, PartList
from jobs.pages.forms.fields import AmountField, QuantityField
from jobs.pages.workshop import list_file
from jobs.pages.workshop.list_columns import _is_unit
from jobs.pages.workshop.list_file import UnreadableFileError, _written, read
from tests.jobs.factories import make_job, make_part
from tests.jobs.offers import make_offer

pytestmark = pytest.mark.django_db


def _send(client, content, name="list.csv", **more):
    """Send a file and read it to its end, as a browser without a script would."""
    content = content.encode() if isinstance(content, str) else content
    sent = {"file": SimpleUploadedFile(name, content), "kind": "other"} | more
    answer = client.post(reverse("part-lists"), sent)
    if answer.status_code != 302:
        return answer
    row = PartList.objects.first()
    while row.state == "reading":
        assert client.post(reverse("part-list-step", args=[row.pk])).status_code == 302
        row.refresh_from_db()
    return row


def _write(client, row):
    answer = client.post(reverse("part-list-write", args=[row.pk]), follow=True)
    row.refresh_from_db()
    return answer


def _workbook(*rows):
    book = Workbook()
    for row in rows:
        book.active.append(row)
    file = io.BytesIO()
    book.save(file)
    return file.getvalue()


def test_new_parts_come_in_with_their_units(browse, cast):
    """Latin-1, semicolons, decimal commas, units in head or cell; nothing before a yes."""
    text = (
        "Art;Hersteller;Bezeichnung;Artikelnummer;Preis EUR;Außendurchmesser [mm];fs (Hz);"
        "Vas / L;Farbe\n"
        "driver;Söhne;Tieftöner 16;A-1;129,50;165,5;48,2;0.6 cu ft;rot\n"
        "conductor;Söhne;Rolle;A-2;1.250,00;;;;\n"
    ).encode("latin-1")
    client = browse("manager")
    row = _send(client, text, kind="", supplier="North")
    assert not Part.objects.exists()
    html = client.get(reverse("part-list", args=[row.pk])).content.decode()
    assert "“Farbe”" in html  # named as not read
    assert (row.new, row.changed, row.encoding) == (1, 0, "Latin-1")
    assert row.troubles == [[3, "", "A new part needs: size, as it is marked."]]
    _write(client, row)
    driver = Driver.objects.get()
    assert (str(driver), driver.supplier, driver.price) == (
        "Söhne Tieftöner 16",
        "North",
        Decimal("129.50"),
    )
    assert driver.outer_diameter == pytest.approx(0.1655)
    assert driver.fs == pytest.approx(48.2)
    # One foot is 0.3048 m exactly (international yard and pound agreement, 1959).
    assert driver.vas == pytest.approx(0.6 * 0.3048**3)
    entry = driver.history.get()
    assert (entry.history_user, entry.history_change_reason) == (cast.manager, "list: list.csv")
    assert entry.fs == driver.fs
    assert Part.objects.get() == driver.part_ptr
    assert search.Word.objects.filter(kind="part", key=driver.pk, word=b"tieftoner").exists()


def test_prices_change_and_what_was_issued_does_not(browse, cast):
    """Known by the supplier's number; an empty cell changes nothing, and frozen papers stay."""
    horn = make_part("Horn", supplier="North", order_number="N-1", price=10, cost=6, notes="loud")
    same = make_part("Lamp", maker="Lux", price=4)
    make_offer(make_job(), cast.manager)
    frozen = (list(IssuedSheet.objects.values()), list(Offer.objects.values()))
    client = browse("manager")
    text = (
        'name,maker,order number,price,cost,notes\n"Horn, new",,n-1,"12,30",,\nlamp,LUX,,4.00,,\n'
    )
    row = _send(client, text, supplier="north")
    assert (row.new, row.changed, row.unchanged) == (0, 2, 0)
    _write(client, row)
    horn.refresh_from_db()
    same.refresh_from_db()
    assert (horn.name, horn.price, horn.cost, horn.notes) == (
        "Horn, new",
        Decimal("12.30"),
        6,
        "loud",
    )
    assert (same.name, same.price) == ("lamp", 4)
    assert horn.version == 2
    assert horn.history.count() == 2
    assert frozen == (list(IssuedSheet.objects.values()), list(Offer.objects.values()))
    again = _send(client, text, supplier="north")
    assert (again.changed, again.unchanged) == (0, 2)


@pytest.mark.parametrize(
    ("line", "column", "words"),
    [
        ("A,-5", "price", "or equal to 0"),
        ("A,=2*3", "price", "formula"),
        ("A,#N/A", "price", "error"),
        ("A,1.234", "price", ""),
        ("A,12 CHF", "price", ""),
        ("A,a lot", "price", "no number"),
        ("A,1,50", "", "decimal comma"),
        (",5", "", "Neither a name"),
        ("B,5\nb ,6", "", "same part as row 2"),
        ("Twin,5", "", "more than once"),
    ],
)
def test_a_row_that_cannot_be_read_is_named_and_stays_out(browse, line, column, words):
    """Row, column and why; the sound row beside it is all that is written."""
    for _n in range(2):
        make_part("Twin")
    client = browse("manager")
    row = _send(client, f"name,price\n{line}\nSound,7\n")
    (trouble,) = row.troubles
    assert trouble[1] == column
    assert words in trouble[2]
    html = client.get(reverse("part-list", args=[row.pk])).content.decode()
    assert "1 row cannot be read" in html
    _write(client, row)
    assert Part.objects.filter(name="Sound", price=7).exists()
    assert not Part.objects.filter(name="A").exists()


def test_figures_of_a_part_are_held_against_each_other(browse):
    """A cut-out wider than the flange is refused as the form would refuse it."""
    text = "name,outer diameter [mm],cut-out diameter [mm]\nA,165,170\nB,165,145\n"
    row = _send(browse("manager"), text, kind="driver")
    assert [trouble[:2] for trouble in row.troubles] == [[2, "Cut-out diameter"]]
    assert row.new == 1


def test_a_workbook_is_read_as_it_shows(browse):
    """Numbers keep their mark whatever the language, choices go by their words, formulas do not."""
    content = _workbook(
        ["name", "size", "price", "metal", "screened"],
        ["A", "25 mm²", 1.234, "copper", "yes"],
        ["B", "4 AWG", 1234, "aluminium", False],
        ["C", "4 AWG", "=1+1", "gold", None],
    )
    client = browse("manager")
    row = _send(client, content, "list.xlsx", kind="conductor")
    # 1.234 has one place too many, and is no 1234.
    assert [trouble[:2] for trouble in row.troubles] == [[2, "price"], [4, "price"], [4, "metal"]]
    assert "2 digits" in row.troubles[0][2]
    _write(client, row)
    cable = Conductor.objects.get()
    assert (cable.size, cable.price, cable.metal, cable.screened) == (
        "4 AWG",
        1234,
        "aluminium",
        False,
    )


def _bomb():
    file = io.BytesIO()
    with ZipFile(file, "w", ZIP_DEFLATED) as packed:
        packed.writestr("xl/workbook.xml", b"0" * 5_000_000)
    return file.getvalue()


@pytest.mark.parametrize(
    "content",
    [
        b"price,colour\n5,red\n",
        b"\n\n",
        b"\x00\x01\x02\x03",
        b"\xd0\xcf\x11\xe0 old",
        b"PK not a zip",
        b'name\n"never closed\n',
        b"name\n" + b"a\n" * 20_001,
        _bomb(),
    ],
    ids=["columns", "empty", "bytes", "old", "zip", "quote", "long", "bomb"],
)
def test_a_file_that_is_no_list_is_refused_as_a_whole(browse, content):
    """With a word beside the field; nothing is kept of it."""
    answer = _send(browse("manager"), content, kind="other")
    assert answer.status_code == 422
    assert 'id="id_file_error"' in answer.content.decode()
    assert not PartList.objects.exists()


def test_it_stops_at_any_step_and_nothing_was_written(browse, monkeypatch):
    """Half read it tells how far it is; stopped, the catalogue is as it was."""
    monkeypatch.setattr("jobs.pages.workshop.list_page.A_STEP", -1)
    client = browse("manager")
    content = b"name\n" + b"".join(b"part %d\n" % n for n in range(3))
    sent = {"file": SimpleUploadedFile("l.csv", content), "kind": "other"}
    client.post(reverse("part-lists"), sent)
    row = PartList.objects.get()
    step = reverse("part-list-step", args=[row.pk])
    answer = client.post(step, headers={"HX-Request": "true"})
    assert "Read: 0 of 3 rows" in answer.content.decode()
    assert client.post(reverse("part-list-write", args=[row.pk])).status_code == 302
    client.post(reverse("part-list-stop", args=[row.pk]))
    assert not PartList.objects.exists()
    assert not Part.objects.exists()


def test_who_changed_the_catalogue_meanwhile_is_not_overwritten(browse):
    """A part that was edited, or entered by hand, since it was judged: all is read once more."""
    horn = make_part("Horn", price=10)
    client = browse("manager")
    row = _send(client, "name,price\nHorn,12\nNew,3\n")
    horn.price, horn.version = 11, 2
    horn.save()
    assert "read once more" in _write(client, row).content.decode()
    assert (row.state, row.to_write) == ("reading", [])
    assert not Part.objects.filter(name="New").exists()
    row = _send(client, "name,price\nNew,3\n")
    make_part("new")
    assert "read once more" in _write(client, row).content.decode()
    row = _send(client, "name,price\nOther,3\n")
    _write(client, row)
    _write(client, row)
    assert Part.objects.filter(name="Other").count() == 1


@pytest.mark.parametrize(
    ("unit", "field", "is_one"),
    [
        ("mm", QuantityField("length"), True),
        ("Hz", QuantityField("length"), False),
        ("nothing", QuantityField("frequency"), False),
        # 1 MΩ is more than any coil has, and a unit of resistance all the same.
        ("MΩ", QuantityField("resistance"), True),
        ("mm", forms.CharField(), False),
        ("eur", AmountField(max_digits=9, decimal_places=2), True),
        ("USD", AmountField(max_digits=9, decimal_places=2), False),
    ],
)
def test_what_stands_beside_a_head_is_a_unit_of_its_figure(unit, field, is_one):
    """Of that quantity, or the currency of the workshop; a text is measured in nothing."""
    assert _is_unit(unit, field) is is_one


@pytest.mark.parametrize(
    ("cell", "text"),
    [
        (None, ""),
        (True, "1"),
        (False, "0"),
        (dt.date(2026, 11, 30), "2026-11-30"),
        (dt.datetime(2026, 11, 30, 8, 5, tzinfo=dt.UTC), "2026-11-30"),
        (12.0, "12"),
        (1.234, "1.2340"),
        (1.23, "1.23"),
        (" a\n b ", "a b"),
    ],
)
def test_a_cell_is_read_as_somebody_would_type_it(cell, text):
    """A day without its hour, a whole number without a mark, no three digits behind one."""
    assert _written(cell) == text


def test_a_file_larger_than_is_read_is_refused_with_the_size(monkeypatch):
    """At the bound it is read, a byte more is not."""
    monkeypatch.setattr(list_file, "MOST_BYTES", 3_000_000)
    rows = (b"a" * 999 + b"\n") * 3_000
    assert read(rows).head
    with pytest.raises(UnreadableFileError) as refused:
        read(rows + b"\n")
    assert str(refused.value) == "The file is larger than 3 MB."


def test_a_number_the_catalogue_knows_as_another_kind_stays_out(browse):
    """Said at the kind of its row, with what it is in the catalogue; nothing is written over it."""
    make_part("Roll", supplier="North", order_number="A-7")
    text = "kind;name;order number\ndriver;Horn;A-7\ndriver;Cone;A-8\n"
    row = _send(browse("manager"), text, kind="", supplier="north")
    label = Part.Kind.OTHER.label
    assert row.troubles == [[2, "kind", f"In the catalogue this is a {label}."]]
    assert row.new == 1
