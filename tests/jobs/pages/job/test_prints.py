"""A page that waits for a print is calm, says how far it is, and becomes the sheet."""

from __future__ import annotations

import uuid

import pytest
from django.urls import reverse
from django.utils import timezone
from django.utils.html import escape

from jobs.models import IssuedSheet, PrintOrder, PrintWorker
from jobs.pages.job import prints
from jobs.sheets import engine
from jobs.sheets.printing.orders import take
from jobs.sheets.printing.worker import Worker

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def _beside(settings, monkeypatch):
    """Print beside the request, as a real server does, and lay nothing out."""
    settings.PRINT_IN_REQUEST = False
    monkeypatch.setattr(engine, "render", lambda html, **_more: b"%PDF-" + html.encode())


def test_a_draft_answers_at_once_and_is_the_pdf_later_at_the_same_address(hatchback, browse):
    """First a page that loads itself again with or without script, then the sheet itself."""
    client = browse("installer")
    url = reverse("sheet-draft", args=[hatchback.code, "labels"]) + "?paper=letter&language=de"
    waits = client.get(url)
    html = waits.content.decode()
    assert waits.status_code == 202
    assert '<noscript><meta http-equiv="refresh"' in html
    order = PrintOrder.objects.get()
    state = reverse("sheet-print-state", args=[hatchback.code, order.pk])
    assert f'data-print="{state}"' in html
    assert "It is next." in html
    assert client.get(url).status_code == 202
    assert client.get(state).status_code == 202
    assert PrintOrder.objects.count() == 1
    Worker().work()
    assert client.get(state).status_code == 200
    done = client.get(url)
    assert done["Content-Type"] == "application/pdf"
    assert done.content.startswith(b"%PDF-")
    assert b'lang="de"' in done.content
    assert b"paper-letter" in done.content
    there = client.get(reverse("sheet-print", args=[hatchback.code, order.pk]))
    assert there.url == url


def test_how_far_it_is_is_said_in_words(hatchback, browse):
    """How many come before, which page, of how many when that is known."""
    client = browse("designer")
    kinds = ("cut", "panels", "labels")
    for kind in kinds:
        client.get(reverse("sheet-draft", args=[hatchback.code, kind]))
    last = PrintOrder.objects.last()
    state = reverse("sheet-print-state", args=[hatchback.code, last.pk])
    assert "2 prints come before this one" in client.get(state).content.decode()
    PrintOrder.objects.exclude(pk=last.pk).delete()
    take("somebody")
    assert "being worked out" in client.get(state).content.decode()
    PrintOrder.objects.update(page=3)
    assert "Page 3." in client.get(state).content.decode()
    before = PrintOrder.objects.get()
    before.pk, before.state, before.page, before.rests_on = None, "printed", 7, ""
    before.save()
    assert "Page 3 of about 7." in client.get(state).content.decode()


def test_who_waits_long_is_told_when_nothing_prints(hatchback, browse, monkeypatch):
    """After half a minute without any process that prints the page says whom to tell."""
    client, words = browse("designer"), "Nothing is being printed at the moment"
    url = reverse("sheet-draft", args=[hatchback.code, "labels"])
    assert words not in client.get(url).content.decode()
    PrintOrder.objects.update(asked_at=timezone.now() - 2 * prints.PATIENCE)
    assert words in client.get(url).content.decode()
    Worker().beat()
    assert words not in client.get(url).content.decode()
    PrintWorker.objects.all().delete()


def test_issuing_leads_to_a_page_that_tells_the_revision(hatchback, browse):
    """Asked for at once, listed while it is to come, issued once however often it is pressed."""
    client = browse("designer")
    overview = reverse("sheets", args=[hatchback.code])
    client.get(overview)
    sent = {"entry_token": str(uuid.uuid4()), "paper": "a4", "language": "en", "sure": "1"}
    url = reverse("sheet-issue", args=[hatchback.code, "labels"])
    page = client.post(url, sent).url
    assert client.post(url, sent).url == page
    assert client.get(page).status_code == 202
    assert "To be issued" in client.get(overview).content.decode()
    Worker().work()
    issued = IssuedSheet.objects.get()
    html = client.get(page).content.decode()
    assert "It is issued as revision 1." in html
    assert reverse("sheet-issued", args=[hatchback.code, issued.pk]) in html
    assert "To be issued" not in client.get(overview).content.decode()
    assert client.post(url, sent).url == page
    assert IssuedSheet.objects.count() == 1


def test_every_button_of_the_sheets_page_carries_a_token_of_its_own(hatchback, browse):
    """Two sheets issued from one page are two."""
    rows = browse("designer").get(reverse("sheets", args=[hatchback.code])).context["sheets"]
    tokens = [token for _kind, _may_issue, token, _language in rows]
    assert len(tokens) > 5
    assert len(set(tokens)) == len(tokens)


def test_a_failed_print_says_so_and_can_be_asked_for_again(hatchback, browse, monkeypatch, caplog):
    """The page keeps the button; after it the print waits again, and opens."""
    client = browse("installer")
    url = reverse("sheet-draft", args=[hatchback.code, "labels"])
    with monkeypatch.context() as broken:
        broken.setattr(engine, "render", lambda html, **_more: 1 / 0)
        client.get(url)
        Worker().work()
    order = PrintOrder.objects.get()
    again = reverse("sheet-print-again", args=[hatchback.code, order.pk])
    html = client.get(url).content.decode()
    assert "Something went wrong while it was printed." in html
    assert again in html
    assert "http-equiv" not in html
    assert client.post(again).url == reverse("sheet-print", args=[hatchback.code, order.pk])
    assert client.get(url).status_code == 202
    Worker().work()
    assert client.get(url)["Content-Type"] == "application/pdf"
    # Asked for again, a print that did not fail is left alone.
    client.post(again)
    assert PrintOrder.objects.get().state == "printed"


@pytest.mark.parametrize("token", ["", "no token", "9" * 500])
def test_a_hand_made_token_is_none(hatchback, browse, token):
    """Whatever is sent for a token, a sheet is issued and nothing breaks."""
    url = reverse("sheet-issue", args=[hatchback.code, "labels"])
    assert browse("designer").post(url, {"entry_token": token, "sure": "1"}).status_code == 302
    assert PrintOrder.objects.count() == 1


def test_a_sheet_with_something_open_is_asked_for_once(hatchback, browse):
    """What is open is shown first, with the options kept; said again, the sheet is issued."""
    client, url = browse("designer"), reverse("sheet-issue", args=[hatchback.code, "labels"])
    asked = client.post(url, {"paper": "letter", "language": "de"})
    assert not PrintOrder.objects.exists()
    page = client.get(asked.url)
    assert page.context["open"]
    html = page.content.decode()
    assert all(escape(finding.says) in html for finding in page.context["open"])
    sent = {"sure": "1", "paper": "letter", "language": "de"}
    assert all(f'name="{name}" value="{value}"' in html for name, value in sent.items())
    client.post(url, sent)
    assert PrintOrder.objects.get().options["paper"] == "letter"


def test_hand_made_boxes_are_left_out(hatchback, browse):
    """Only keys are kept, and not more than can be ticked."""
    url = reverse("sheet-draft", args=[hatchback.code, "compare"])
    boxes = ["x" * 5000, "-1", "9" * 400, *[str(n) for n in range(500)]]
    assert browse("designer").get(url, {"box": boxes}).status_code == 202
    assert len(PrintOrder.objects.get().options["boxes"]) == prints.MOST_BOXES


def test_the_templates_of_picked_parts(hatchback, browse):
    """The page offers each part; what is no number of a part is left aside."""
    page = browse("designer").get(reverse("sheets", args=[hatchback.code]))
    assert 'name="part"' in page.content.decode()
    address = reverse("sheet-draft", args=[hatchback.code, "templates"])
    picked = {"part": ["A3", "<b>", "A" * 400]}
    assert browse("designer").get(address, picked).status_code in (200, 202)
    order = hatchback.job.print_orders.latest("pk")
    assert order.options["parts"] == ["A3"]
