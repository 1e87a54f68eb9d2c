"""The words of every record, and what is found by them."""

from __future__ import annotations

import pytest
from django.urls import reverse
from hypothesis import given
from hypothesis import strategies as st

from jobs.models import Customer, EquipmentItem, Job, Panel, Vehicle, Word
from jobs.search import MOST, Hits, look_up, words_in, write_first

Shelf = Word.Shelf


def _jobs(text: str) -> list[str]:
    return [Job.objects.get(pk=key).code for key in look_up(text, Shelf.JOB, 20).keys("job")]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("Kühlwagen, B-AX 12", [b"kuhlwagen", b"b", b"ax", b"12"]),
        ("GROẞE Straße", [b"grosse", b"strasse"]),
        ("_-_ ", []),
        ("x" * 99, [b"x" * 40]),
    ],
)
def test_words_are_plain(text, words):
    """Case, accents and marks make no other word, and a long one is cut."""
    assert words_in(text) == words


@given(st.text(max_size=60))
def test_any_text_has_words_of_bounded_length(text):
    """Whatever is typed comes to words that fit their column and hold no 0xff."""
    assert all(0 < len(word) <= 40 and b"\xff" not in word for word in words_in(text))


def test_a_plate_is_found_with_and_without_its_blanks(hatchback):
    """A plate, a serial number and a telephone number are known by their endings as well."""
    vehicle = hatchback.job.vehicle
    vehicle.plate, vehicle.vin = "KX-LD 5821", "ZZZ1AB3CD4EF5GH67"
    vehicle.save()
    vehicle.customer.phone = "+49 171 5550 123"
    vehicle.customer.save()
    code = hatchback.job.code
    typed = ["kxld5821", "KX LD 5821", "ld5821", "5821", "EF5GH67", "5550123", "1715550"]
    assert [_jobs(text) for text in typed] == [[code]] * len(typed)
    assert _jobs("821") == []


def test_every_word_typed_has_to_begin_a_word_of_the_record(hatchback, saloon):
    """Words of a job, its car and its customer are read together; one unfit hides it."""
    vehicle = hatchback.job.vehicle
    name = vehicle.customer.name.split()[0]
    assert _jobs(f"{vehicle.model[:3]} {name[:3]}") == [hatchback.job.code]
    assert _jobs(f"{vehicle.model[:3]} zzz") == []
    assert _jobs("") == _jobs(" -- ") == []


def test_what_is_renamed_is_found_by_its_new_name_only(hatchback):
    """Words follow the record: a customer's new name finds their jobs, the old one nothing."""
    customer = hatchback.job.vehicle.customer
    customer.name = "Ottoline Quarrendon"
    customer.save()
    assert _jobs("quarr") == [hatchback.job.code]
    assert look_up("ottoline", Shelf.CUSTOMER, 20).keys("customer") == [customer.pk]
    customer.name = "Bertil Ahlgren"
    customer.save()
    assert _jobs("quarr") == []
    assert look_up("ottoline", Shelf.CUSTOMER, 20) == Hits()


def test_what_is_removed_is_found_when_it_is_back(hatchback):
    """A removed record is found by nothing until it is brought back."""
    panel = Panel.objects.create(job=hatchback.job, position=9, name="Quillon cover")
    assert look_up("quillon", Shelf.PLACE, 20).records == [("panel", panel.pk)]
    panel.remove()
    assert look_up("quillon", Shelf.PLACE, 20).records == []
    panel.restore()
    assert look_up("quillon", Shelf.PLACE, 20).records == [("panel", panel.pk)]
    panel.delete()
    assert not Word.objects.filter(word=b"quillon").exists()


def test_a_word_written_out_stands_first_and_the_newest_before_the_older(hatchback):
    """Whoever types a whole word means it; of equals the newest is wanted."""
    first, second, longer = (
        EquipmentItem.objects.create(job=hatchback.job, part=hatchback.sub.part, place=place)
        for place in ("quoin left", "quoin right", "quoins")
    )
    found = look_up("quoin", Shelf.ITEM, 20)
    assert found.keys("equipmentitem") == [second.pk, first.pk, longer.pk]
    assert not found.more
    assert look_up("quoin", Shelf.ITEM, 2).more


def test_more_than_can_be_looked_at_is_said(hatchback):
    """A beginning of too many words answers with some and says that there are more."""
    rows = [Word(shelf=Shelf.JOB, word=b"quern%d" % n, kind="job", key=n) for n in range(MOST + 9)]
    Word.objects.bulk_create(rows)
    assert look_up("quern", Shelf.JOB, 20).more
    assert look_up("quern307", Shelf.JOB, 20) == Hits(records=[("job", 307)])
    assert look_up("quern quern307", Shelf.JOB, 20).records == [("job", 307)]


def test_words_of_before_are_written_once(hatchback):
    """An installation from before there were words has them after it was brought up to date."""
    kept = set(Word.objects.values_list("shelf", "word", "kind", "key"))
    assert len(kept) > 100
    Word.objects.all().delete()
    write_first()
    assert set(Word.objects.values_list("shelf", "word", "kind", "key")) == kept


def test_a_note_a_serial_and_a_part_are_found(hatchback, browse):
    """The page lists what stands written in a job beside jobs, cables, equipment and parts."""
    item = EquipmentItem.objects.filter(job=hatchback.job).select_related("part").first()
    assert item is not None
    item.serial = "ZQ-88-4711"
    item.save()
    Panel.objects.create(job=hatchback.job, position=9, name="Quillon cover")
    page = browse("installer")
    for text, shown in [
        ("4711", str(item.part)),
        ("quillon", "Quillon cover"),
        (item.part.name, "Catalogue"),
        (hatchback.main_run.label, hatchback.main_run.label),
        ("L-2290", "L-2290"),  # a lot of cable
        ("tight", reverse("aftercare", args=[hatchback.code])),  # of a visit
    ]:
        assert shown in page.get(reverse("search"), {"q": text}).content.decode()


# Words (6 shelves, with two typed words: 2 counts and at most 2 look-ups each), jobs, customers,
# runs, items, parts and the kinds of places that were hit; session and user.
@pytest.mark.parametrize("rows", [1, 20])
def test_a_search_asks_as_often_for_one_as_for_twenty(
    hatchback, browse, rows, django_assert_max_num_queries
):
    """However many are found, the tables are asked as often."""
    for n in range(rows):
        Panel.objects.create(job=hatchback.job, position=n, name=f"Quillon cover {n}")
        EquipmentItem.objects.create(
            job=hatchback.job, part=hatchback.sub.part, place=f"Quillon cover {n}"
        )
    client = browse("installer")
    with django_assert_max_num_queries(28):
        client.get(reverse("search"), {"q": "quillon cover"})


def test_a_search_finds_no_removed_job(hatchback, browse):
    """What belongs to a removed job is not offered."""
    Panel.objects.create(job=hatchback.job, position=9, name="Quillon cover")
    hatchback.job.remove()
    page = browse("installer").get(reverse("search"), {"q": "quillon"}).content.decode()
    assert "Quillon" not in page.replace("“quillon”", "")


def test_a_customer_of_two_cars_is_found_by_both(hatchback):
    """A second car of a customer brings its own job."""
    customer = Customer.objects.create(name="Ottoline Quarrendon")
    for number, model in ((801, "Lanner"), (802, "Hobby")):
        car = Vehicle.objects.create(
            customer=customer, maker="Falk", model=model, driver_side="left", energy="combustion"
        )
        Job.objects.create(number=number, vehicle=car, title="More bass")
    assert _jobs("quarrendon") == ["J-0802", "J-0801"]
    assert _jobs("quarrendon lanner") == ["J-0801"]
