"""Every page that is not a row: who may open it, by which method, what it does with nonsense."""

from __future__ import annotations

import pytest
from django.test import Client
from django.urls import reverse

from jobs.design.job import board_counts
from jobs.models import Customer, Job, Part, Vehicle
from tests.jobs.pages.kinds import BANANAS, PARTS, says_beside, typed

pytestmark = pytest.mark.django_db

PAGES = [
    *("job", "brief", "car", "customer", "equipment", "channels", "boxes", "power", "panels"),
    *("findings", "bay", "sheets"),
]
# Pages that are only read, by every member; "code" and "run" are those of the scene.
READ = [
    ("board", []),
    ("search", []),
    ("catalogue", []),
    *[(name, ["code"]) for name in PAGES],
    ("run", ["code", "run"]),
]
# Pages that only those who decide may open.
SPEC = [("new-job", []), *[("part-add", [kind]) for kind in PARTS]]
names = lambda page: "-".join([page[0], *map(str, page[1])])  # noqa: E731
read_page = pytest.mark.parametrize("page", READ, ids=names)
spec_page = pytest.mark.parametrize("page", SPEC, ids=names)


@read_page
def test_a_page_opens_for_a_member_only_and_never_writes(
    hatchback, browse, page, django_assert_max_num_queries
):
    """Members read it, strangers get 404, the signed-out are asked to sign in; GET never writes.

    But for the counts of a job nobody has looked at since it was saved.
    """
    board_counts.refresh(hatchback.job)
    named = {"code": hatchback.code, "run": hatchback.main_run.label}
    url = reverse(page[0], args=[named[one] for one in page[1]])
    client = browse("installer")
    # What a job is loaded with, two of it for moulded shapes; the wiring page offers ends and
    # panels to each kind of run besides.
    with django_assert_max_num_queries(72) as seen:
        assert client.get(url).status_code == 200
    written = [
        one["sql"]
        for one in seen.captured_queries
        if one["sql"].split()[0] in {"INSERT", "UPDATE", "DELETE"}
    ]
    assert written == []
    assert browse("stranger").get(url).status_code == 404
    assert Client().get(url).status_code == 302
    if page[0] not in {"brief", "car", "customer"}:
        assert browse("manager").post(url).status_code == 405


@spec_page
def test_a_page_for_those_who_decide(browse, page):
    """A designer opens it, an installer is refused, to a stranger it does not exist."""
    url = reverse(page[0], args=page[1])
    assert browse("designer").get(url).status_code == 200
    assert browse("installer").get(url).status_code == 403
    assert browse("installer").post(url).status_code == 403
    assert browse("stranger").get(url).status_code == 404
    assert browse("manager").put(url).status_code == 405


@pytest.mark.parametrize("code", ["J-9999", "J-", "J-99999999999", "1", "J-²"])
def test_a_job_that_does_not_exist_is_not_found(browse, code):
    """A wrong number is 404, never a stack trace."""
    assert browse("manager").get(reverse("job", args=[code])).status_code == 404


@pytest.mark.parametrize("text", ["J-²", "P²", "hatch", "P01", "4" * 40, "SUB-4", "<b>", "  "])
def test_any_text_may_be_searched_for(hatchback, browse, text):
    """Whatever is typed into the search is looked for and shown escaped."""
    answer = browse("installer").get(reverse("search"), {"q": text})
    assert answer.status_code == 200
    assert "<b>" not in answer.content.decode()


def test_money_stays_with_those_who_talk_money(hatchback, browse):
    """An installer and a designer see no budget and may not set one."""
    url = reverse("brief", args=[hatchback.code])
    page = browse("consultant").get(url)
    assert "budget" in page.context["form"].fields
    assert "4321" in page.content.decode()
    for name in ("installer", "designer"):
        page = browse(name).get(url)
        assert "budget" not in page.context["form"].fields
        assert "4321" not in page.content.decode()


@pytest.mark.parametrize(
    ("name", "field", "wrong", "right", "other"),
    [
        ("brief", "reserve_wanted", BANANAS, "2 h", "3 h"),
        ("car", "cabin_volume", BANANAS, "3100 L", "2900 L"),
        ("customer", "email", "by pigeon", "new@lind.invalid", "old@lind.invalid"),
    ],
)
def test_the_record_a_page_is_about(hatchback, browse, name, field, wrong, right, other):
    """It is saved by those who decide, refused to installers, and a wrong text is kept."""
    url = reverse(name, args=[hatchback.code])
    client, second = browse("consultant"), browse("manager")
    assert browse("installer").post(url).status_code == 403
    assert browse("stranger").post(url).status_code == 404
    assert client.delete(url).status_code == 405
    sent = typed(client.get(url).context["form"])
    answer = client.post(url, sent | {field: wrong})
    assert answer.status_code == 422
    assert says_beside(answer.content.decode(), field, wrong)
    assert client.post(url, sent | {field: right}).status_code == 302
    late = second.post(url, sent | {field: other})
    assert late.status_code == 422
    assert "Somebody else saved this" in late.content.decode()
    assert right.split(" ", maxsplit=1)[0] in late.content.decode()
    # Who did not touch the field changes nothing of it.
    assert second.post(url, sent).status_code == 302
    assert typed(client.get(url).context["form"])[field] != sent.get(field)


def test_a_job_is_started_once(browse):
    """Customer, car and job are made together, and a form sent twice makes one of each."""
    client, url = browse("consultant"), reverse("new-job")
    jobs, cars = Job.objects.count(), Vehicle.objects.count()
    sent = typed(client.get(url).context["form"]) | {
        "new_customer": "Invented Person",
        "maker": "Maker",
        "model": "Model",
        "driver_side": "left",
        "energy": "combustion",
    }
    answer = client.post(url, sent)
    assert answer.status_code == 422
    html = answer.content.decode()
    assert "Invented Person" in html
    assert 'id="id_title_error"' in html
    assert Job.objects.count() == jobs
    sent["title"] = "A quiet one"
    first = client.post(url, sent)
    assert first.status_code == 302
    assert client.post(url, sent).url == first.url
    assert Job.objects.count() == jobs + 1
    assert Vehicle.objects.count() == cars + 1
    assert Customer.objects.filter(name="Invented Person").count() == 1


@pytest.mark.parametrize("kind", PARTS)
def test_a_part_is_entered_corrected_and_taken_back(hatchback, browse, kind):
    """Each kind of part is made once, keeps wrong text, and comes back after a removal."""
    client, url = browse("consultant"), reverse("part-add", args=[kind])
    least, figure = PARTS[kind]
    sent = typed(client.get(url).context["form"]) | least
    wrong = client.post(url, sent | {figure: BANANAS})
    assert wrong.status_code == 422
    assert says_beside(wrong.content.decode(), figure, BANANAS)
    assert client.post(url, sent).status_code == 302
    assert client.post(url, sent).status_code == 302
    part = Part.objects.get(name=least["name"])
    assert part.kind == kind
    edit = reverse("part-edit", args=[part.pk])
    page = client.get(edit)
    stale = typed(page.context["form"])
    assert client.post(edit, stale | {"notes": "said first"}).status_code == 302
    late = client.post(edit, stale | {"notes": "said second"})
    assert late.status_code == 422
    assert "said first" in late.content.decode()
    assert "said second" in late.content.decode()
    remove = reverse("part-remove", args=[part.pk])
    assert client.get(remove).status_code == 405
    assert browse("installer").post(remove).status_code == 403
    assert browse("stranger").post(remove).status_code == 404
    assert browse("stranger").get(edit).status_code == 404
    assert browse("installer").get(edit).status_code == 403
    assert client.post(remove).status_code == 302
    assert not Part.objects.filter(pk=part.pk).exists()
    assert client.post(reverse("part-restore", args=[part.pk])).status_code == 302
    assert Part.objects.filter(pk=part.pk).exists()


def test_the_workshops_choices_are_its_managers(hatchback, browse):
    """Only the manager changes name, units and paper."""
    url = reverse("workshop")
    client = browse("manager")
    page = client.get(url)
    assert page.status_code == 200
    assert browse("consultant").get(url).status_code == 403
    assert browse("stranger").get(url).status_code == 404
    sent = typed(page.context["form"])
    assert client.post(url, sent | {"units": "imperial"}).status_code == 302
    assert (
        "in"
        in client.get(reverse("box-edit", args=[hatchback.code, hatchback.box.pk])).content.decode()
    )
    assert client.post(url, sent | {"paper": "bedsheet"}).status_code == 422


def test_a_step_is_ticked_by_its_first_hand(hatchback, browse, cast):
    """An installer ticks; whoever ticks second does not take the name away; unticking is said."""
    step = hatchback.job.panelsteps.filter(done_at=None).first()
    url = reverse("tick", args=[hatchback.code, step.pk])
    assert browse("installer").get(url).status_code == 405
    assert browse("stranger").post(url, {"done": "1"}).status_code == 404
    assert browse("installer").post(url, {"done": "1"}).status_code == 302
    assert browse("manager").post(url, {"done": "1"}).status_code == 302
    step.refresh_from_db()
    assert step.done_by == cast.installer
    assert browse("installer").post(url, {"done": "0", "sure": "1"}).status_code == 302
    step.refresh_from_db()
    assert step.done_at is None


def test_a_measured_value_is_written_down(hatchback, browse, cast):
    """A reading with its unit is kept in SI with who read it; nonsense is kept as typed."""
    row = hatchback.key_off
    url = reverse("measure", args=[hatchback.code, row.pk])
    client = browse("installer")
    assert client.get(url).status_code == 405
    assert browse("stranger").post(url).status_code == 404
    wrong = client.post(url, {f"m{row.pk}-value": BANANAS})
    assert wrong.status_code == 422
    assert BANANAS in wrong.content.decode()
    assert "no unit of" in wrong.content.decode() or "errorlist" in wrong.content.decode()
    assert client.post(url, {f"m{row.pk}-value": "38 mA"}).status_code == 302
    row.refresh_from_db()
    assert row.value == pytest.approx(0.038)
    assert row.measured_by == cast.installer
