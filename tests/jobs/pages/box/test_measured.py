"""The page of a measured sweep: pasted or uploaded, wrong files told apart, the choice undoable."""

from __future__ import annotations

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from jobs.design.job.whole import load, work_out
from jobs.models import DriverSweep
from tests.jobs.pages.kinds import typed
from tests.jobs.sweeps import THIS_SUB, sweep_text

pytestmark = pytest.mark.django_db
GOOD = sweep_text(THIS_SUB, 11)


def _sent(client, hatchback, **more):
    url = reverse("sweep-add", args=[hatchback.code])
    sent = typed(client.get(url).context["form"])
    least = {
        "item": hatchback.sub.pk,
        "measured_on": "2026-11-21",
        "measured_by": "Somebody",
    }
    return url, sent | least | more


def _swapped() -> str:
    rows = [line.split("\t") for line in GOOD.splitlines()[1:]]
    return "\n".join(f"{ohm}\t{hertz}" for hertz, ohm, _degrees in rows)


def _kilohertz() -> str:
    rows = [line.split("\t") for line in GOOD.splitlines()[1:]]
    return "\n".join(f"{float(hertz) / 1000:.5f}\t{ohm}" for hertz, ohm, _degrees in rows)


@pytest.mark.parametrize(
    ("content", "says", "kept"),
    [
        (_swapped().encode(), "columns look swapped", True),
        (_kilohertz().encode(), "write kHz", True),
        (b"", "empty", False),
        (b"\n\n", "fewer than 8 lines", True),
        (b"20\t4\n" * 2_200_000, "at most", False),
        (bytes(range(256)) * 40, "control characters", False),
        (b"20\t4\n21\tfive\n" * 9, "is not a number", True),
    ],
    ids=["swapped", "kHz", "no-bytes", "no-lines", "10-MB", "binary", "word"],
)
def test_a_file_that_is_no_sweep_is_answered_with_its_reason(
    hatchback, browse, content, says, kept
):
    """Nothing is stored, what was typed stays, and a readable file stands in the field."""
    client = browse("designer")
    url, sent = _sent(client, hatchback, measured_by="Somebody else")
    before = DriverSweep.objects.count()
    answer = client.post(url, sent | {"file": SimpleUploadedFile("sweep.txt", content)})
    assert answer.status_code == 422
    html = answer.content.decode()
    assert says in html
    assert "Somebody else" in html
    assert DriverSweep.objects.count() == before
    if kept and content.strip():
        assert content.decode().splitlines()[3] in html


@pytest.mark.parametrize("pasted", [True, False])
def test_a_sweep_with_decimal_commas_is_taken(hatchback, browse, pasted):
    """The same sweep in the German way of writing, pasted or as a file."""
    client, text = browse("installer"), GOOD.replace(".", ",")
    url, sent = _sent(client, hatchback)
    more = {"content": text} if pasted else {"file": SimpleUploadedFile("a.csv", text.encode())}
    assert client.post(url, sent | more).status_code == 302
    made = DriverSweep.objects.latest("pk")
    assert made.content == text
    page = client.get(reverse("sweep-edit", args=[hatchback.code, made.pk])).content.decode()
    assert f"{THIS_SUB.fs}\N{NO-BREAK SPACE}Hz" in page
    assert "<svg" in page


def test_ten_megabytes_pasted_are_answered_too(hatchback, browse):
    """A slip of the clipboard gets the same words beside the field."""
    client = browse("designer")
    url, sent = _sent(client, hatchback, content="20\t4\n" * 2_000_000)
    answer = client.post(url, sent)
    assert answer.status_code == 422
    assert "at most" in answer.content.decode()


def test_a_second_sweep_asks_for_what_was_changed(hatchback, browse):
    """Method, amount and text go together; each one missing is asked for at its field."""
    client = browse("designer")
    for more, field in (
        ({"second": GOOD}, "method"),
        ({"method": "mass", "added_mass": "30 g"}, "second"),
        ({"method": "volume", "second": GOOD}, "box_volume"),
    ):
        url, sent = _sent(client, hatchback, content=GOOD, **more)
        answer = client.post(url, sent)
        assert answer.status_code == 422
        assert f'id="id_{field}_error"' in answer.content.decode()


def test_the_preview_says_what_a_pasted_sweep_tells(hatchback, browse):
    """While it is typed the figures stand there, and nothing is stored."""
    client, before = browse("designer"), DriverSweep.objects.count()
    _url, sent = _sent(client, hatchback, content=GOOD)
    answer = client.post(reverse("sweep-preview", args=[hatchback.code]), sent)
    assert answer.status_code == 200
    html = answer.content.decode()
    assert "Measured against the catalogue" in html
    assert "outside" in html
    assert DriverSweep.objects.count() == before
    empty = client.post(reverse("sweep-preview", args=[hatchback.code]), sent | {"content": ""})
    assert "No sweep yet" in empty.content.decode()


def test_the_choice_is_made_by_those_who_decide_and_can_be_undone(hatchback, van, browse):
    """Use, see it on the box and the list, and go back by the button of the message."""
    pk = hatchback.sweep.pk
    use, leave = (reverse(f"sweep-{act}", args=[hatchback.code, pk]) for act in ("use", "leave"))
    assert browse("installer").post(use).status_code == 403
    assert browse("stranger").post(use).status_code == 404
    client = browse("designer")
    assert client.get(use).status_code == 405
    assert client.post(reverse("sweep-use", args=[van.code, pk])).status_code == 404
    page = client.post(use, follow=True).content.decode()
    assert f'action="{leave}"' in page
    box = work_out(load(hatchback.job)).boxes[0]
    assert box.measured_set is not None
    shown = client.get(reverse("box-edit", args=[hatchback.code, box.box.pk])).content.decode()
    assert "measured figures of its driver" in shown
    assert (
        "used by the boxes"
        in client.get(reverse("equipment", args=[hatchback.code])).content.decode()
    )
    assert f'action="{use}"' in client.post(leave, follow=True).content.decode()
    assert work_out(load(hatchback.job)).boxes[0].measured_set is None


def test_using_one_sweep_leaves_the_other_of_the_same_driver(hatchback, browse):
    """Of two sweeps of a driver one is used, and undo goes back to the one before."""
    client = browse("designer")
    first = hatchback.sweep
    url, sent = _sent(client, hatchback, content=GOOD)
    client.post(url, sent)
    second = DriverSweep.objects.latest("pk")
    client.post(reverse("sweep-use", args=[hatchback.code, first.pk]))
    page = client.post(reverse("sweep-use", args=[hatchback.code, second.pk]), follow=True)
    first.refresh_from_db()
    second.refresh_from_db()
    assert (first.in_use, second.in_use) == (False, True)
    back = reverse("sweep-use", args=[hatchback.code, first.pk])
    assert f'action="{back}"' in page.content.decode()
