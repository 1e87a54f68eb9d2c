"""Whatever a field takes, the answer takes less than 2 s and 300 MB; the rest is refused there."""

from __future__ import annotations

import random
from collections.abc import Iterator
from typing import Any

import pytest
from django import forms
from django.db import transaction
from django.test import Client
from django.urls import NoReverseMatch, reverse

from jobs.models import Box, Job, Ring
from jobs.pages.forms.columns_field import ColumnsFileField
from jobs.pages.forms.fields import AmountField, QuantityField
from tests.jobs.pages.forms_at import form_at, refused_at
from tests.jobs.pages.kinds import KINDS, PARTS, Kind, every_kind, says_beside, third_kinds, typed
from tests.jobs.pages.limits import Cost, at_end, cost, ends, extreme

pytestmark = pytest.mark.django_db
CODE = "J-0417"  # of the hatchback
# What shows a row beside its own page; the sheets are in the long test.
PAGES = ("boxes", "channels", "power", "supply", "panels", "findings", "bay")
SHEETS = ("build", "panels", "cut", "templates", "cables", "labels", "handover")


def _form(kind: Kind) -> tuple[str, Any]:
    """The form of the first row of a kind, or of a new one, and its address."""
    row = kind.model.objects.filter(job__number=417).first()
    if row is None:
        url = reverse(f"{kind.slug}-add", args=[CODE])
    else:
        url = reverse(f"{kind.slug}-edit", args=[CODE, row.pk])
    return url, form_at(url, row or kind.model(job=Job.objects.get(number=417)))


def _asked(client: Client, costs: dict[str, Cost], method: str, url: str, sent: Any = None) -> Any:
    """Ask, and write down what it took."""
    with cost() as spent:
        answer = getattr(client, method)(url, sent)
    assert answer.status_code in {200, 302, 404, 422}, (url, answer.status_code)
    costs[f"{method} {url}"] = spent
    return answer


def _try(client: Client, kind: Kind, url: str, sent: dict[str, Any], then: list[str]) -> Any:
    """Post to preview and save, open what shows it, take it back; return what was too much."""
    costs: dict[str, Cost] = {}
    point = transaction.savepoint()
    try:
        try:
            live = reverse(f"{kind.slug}-preview", args=[CODE])
        except NoReverseMatch:
            live = ""
        row = url.rstrip("/").rpartition("/")[2]
        if live:
            _asked(client, costs, "post", live, sent | {"row": row})
        if _asked(client, costs, "post", url, sent).status_code == 302:
            for address in [url, *then] if row.isdecimal() else then:
                _asked(client, costs, "get", address)
    finally:
        transaction.savepoint_rollback(point)
    assert costs
    return {where: spent for where, spent in costs.items() if not spent.bearable}


def _every_form(client: Client) -> Iterator[tuple[str, forms.BaseForm]]:
    job = Job.objects.get(number=417)
    for kind in KINDS:
        address = reverse(f"{kind.slug}-add", args=[CODE])
        yield kind.slug, form_at(address, kind.model(job=job))
    for part in PARTS:
        yield part, client.get(reverse("part-add", args=[part])).context["form"]
    for page in ("brief", "car", "fit", "price"):
        yield page, client.get(reverse(page, args=[CODE])).context["form"]
    for page in ("workshop", "rates"):
        yield page, client.get(reverse(page)).context["form"]


def test_every_field_says_where_it_ends(hatchback, browse):
    """No figure, count or text of any form is without a limit."""
    seen = 0
    for name, form in _every_form(browse("manager")):
        for label, field in form.fields.items():
            if field.widget.is_hidden or isinstance(field, ColumnsFileField):
                continue
            seen += 1
            where = f"{name}: {label}"
            if isinstance(field, AmountField):  # money
                assert field.largest, where
            elif isinstance(field, forms.FloatField):
                pytest.fail(f"{where} is typed without a unit and has no kind")
            elif isinstance(field, forms.IntegerField):
                assert field.max_value is not None, where
                assert field.min_value is not None, where
            elif isinstance(field, forms.CharField) and not isinstance(field, QuantityField):
                own = {"content", "second", "size"}  # read by a reader with limits of its own
                assert field.max_length or label in own, where
    assert seen > 250


@pytest.mark.parametrize(
    ("slug", "name", "text"),
    [
        ("box", "brace_count", "99999999999"),
        ("box", "baffle_layers", "7"),
        ("box", "driver_count", "17"),
        ("ring", "quantity", "32767"),
        ("ring", "layers", "32767"),
        ("ring", "screws", "32767"),
        ("ring", "screws", "2"),
        ("ring", "outer_diameter", "32767 mm"),
    ],
)
def test_beyond_its_limit_a_field_keeps_the_text_and_nothing_is_worked_out(
    hatchback, browse, slug, name, text
):
    """Preview and save both say the limit beside the field; the record never holds the value."""
    client, kind = browse("designer"), next(one for one in KINDS if one.slug == slug)
    url, form = _form(kind)
    before = getattr(form.instance, name)
    sent = typed(form) | {name: text}
    costs: dict[str, Cost] = {}
    saved = _asked(client, costs, "post", url, sent)
    assert saved.status_code == 422
    assert says_beside(saved.content.decode(), name, text)
    row = url.rstrip("/").rpartition("/")[2]
    live = _asked(
        client, costs, "post", reverse(f"{slug}-preview", args=[CODE]), sent | {"row": row}
    )
    assert getattr(live.context["row"], name) == before
    assert name in live.context["form"].errors
    assert all(spent.bearable for spent in costs.values()), costs


@pytest.mark.parametrize("end", ["largest", "smallest"])
@pytest.mark.parametrize("slug", ["box", "ring", "trim-panel", "run", "node"])
def test_all_fields_at_their_limit(hatchback, browse, slug, end):
    """With every field at its end, preview, save and the page itself stay quick and small."""
    client, kind = browse("manager"), next(one for one in KINDS if one.slug == slug)
    url, form = _form(kind)
    then = [reverse("boxes" if slug in {"box", "ring", "trim-panel"} else "power", args=[CODE])]
    assert not _try(client, kind, url, typed(form) | ends(form, end), then)


LISTS = ("profile", "cavity_profile", "cavity_obstacles", "inner_braces", "thicknesses")
FULL = {"shape": "profile", "width": "500 mm", "cavity_width": "1200 mm", "brace_count": "20"}


def test_a_box_with_every_list_full(hatchback, browse):
    """An outline, a cavity, obstacles and braces as many as may be, in a box that can be built."""
    client, kind = browse("designer"), next(one for one in KINDS if one.slug == "box")
    url, form = _form(kind)
    sent = typed(form) | FULL
    for name in LISTS:
        sent |= at_end(form, name, "largest")
    live = client.post(reverse("box-preview", args=[CODE]), sent)
    assert not live.context["form"].errors
    assert not _try(client, kind, url, sent, [reverse("boxes", args=[CODE])])


def test_a_fit_with_every_list_full(hatchback, browse):
    """What fits a cavity of that many corners and obstacles is answered in time."""
    client, costs = browse("designer"), {}
    box = hatchback.box
    assert box is not None
    url = reverse("fit-box", args=[CODE, box.pk])
    form = client.get(url).context["form"]
    lists = [name for name in LISTS if name in form.fields]
    assert len(lists) == 2
    sent = typed(form) | {"cavity_width": "1200 mm", "facing": "front"}
    for name in lists:
        sent |= at_end(form, name, "largest")
    assert _asked(client, costs, "post", url, sent).context["fitting"] is not None
    assert all(spent.bearable for spent in costs.values()), costs


@pytest.mark.long
@pytest.mark.parametrize("end", ["largest", "smallest"])
@every_kind
def test_each_field_at_its_limit(hatchback, browse, kind, end):
    """Each field at its end, and all of them, on every page and sheet that shows the row.

    A sheet may take as long again as it takes with the job as it is.
    """
    client = browse("manager")
    url, form = _form(kind)
    all_of_them = ends(form, end)
    single = [at_end(form, name, end) for name in form.fields if name != "version"]
    pages = [reverse(page, args=[CODE]) for page in PAGES]
    sheets = [reverse("sheet-draft", args=[CODE, sheet]) for sheet in SHEETS]
    for changed in [all_of_them, *filter(None, single)]:
        then = pages + sheets if changed is all_of_them else pages
        assert not _try(client, kind, url, typed(form) | changed, then), changed


@pytest.mark.long
@pytest.mark.parametrize("turn", range(100))
def test_any_values_within_the_limits(hatchback, browse, turn):
    """Random values inside all limits, saved into a job, leave every page quick."""
    client, chance = browse("manager"), random.Random(turn)
    kind = chance.choice([one for one in KINDS if one.slug in {"box", "ring", "trim-panel", "run"}])
    url, form = _form(kind)
    sent = typed(form)
    for name, field in form.fields.items():
        if chance.random() < 0.5 or name in {"version", "name"}:
            continue
        if isinstance(field, QuantityField):
            low, high = (extreme(field, end) for end in ("smallest", "largest"))
            low, high = field.read(low), field.read(high)
            sign = -1 if low < 0 and chance.random() < 0.3 else 1
            sent[name] = field.write(sign * min(10 ** chance.uniform(-4, 2), high))
        elif isinstance(field, forms.IntegerField):
            sent[name] = str(chance.randint(field.min_value, field.max_value))
        elif isinstance(field, forms.ChoiceField):
            sent[name] = chance.choice([key for key, _word in field.widget.choices])
    assert not _try(client, kind, url, sent, [reverse(page, args=[CODE]) for page in PAGES])


def test_a_key_no_database_holds(hatchback, browse):
    """A choice, a row or an address with an endless number is refused or not found."""
    client, keys = browse("designer"), [str(2**63), "9" * 400, "9" * 5000, "-1", "²"]
    ring = Ring.objects.filter(job=hatchback.job).first()
    run = hatchback.job.runs.filter(kind="C").first()
    assert ring is not None
    assert run is not None
    ring_url, run_url = (reverse(f"{name}-edit", args=[CODE, row.pk])
                         for name, row in (("ring", ring), ("run", run)))  # fmt: skip
    ring_sent, run_sent = typed(form_at(ring_url)), typed(form_at(run_url))
    for key in keys:
        assert "material" in refused_at(ring_url, ring_sent | {"material": key})
        assert "wakes" in refused_at(run_url, run_sent | {"wakes": [key]})
        live = client.post(reverse("ring-preview", args=[CODE]), ring_sent | {"row": key})
        assert live.status_code in {200, 404}
    assert client.post(ring_url, ring_sent | {"material": keys[0]}).status_code == 422


def test_a_route_in_the_address_is_no_route(hatchback, browse):
    """A word where the form expects a list opens an empty list."""
    answer = browse("designer").get(reverse("run-add", args=[CODE]), {"route": "xx", "wakes": "y"})
    assert answer.status_code == 200


@pytest.mark.parametrize("page", ["search", "catalogue", "customers"])
def test_a_character_no_database_takes(hatchback, browse, page):
    """A NUL in an address or a cookie is refused before any database is asked."""
    client, asked = browse("consultant"), {"q": "a\0b", "known_customer": "a\0b"}
    assert client.get(reverse(page), asked).status_code == 400
    assert client.get(f"{reverse(page)}\0").status_code == 400
    client.cookies["sessionid"] = "\0" * 32
    assert client.get(reverse(page)).status_code == 400


@third_kinds
def test_a_nul_typed_into_a_form_is_said_beside_it(hatchback, browse, kind):
    """Into every field of a new row at once: refused beside the fields, and nothing is stored."""
    path = reverse(f"{kind.slug}-add", args=[CODE])
    new = form_at(path, kind.model(job=hatchback.job))
    answer = browse(kind.who).post(path, {name: f"a\0{name}" for name in new.fields})
    assert answer.status_code == 422
    assert answer.context["form"].errors


def test_a_record_from_before_there_were_limits(hatchback, browse):
    """What was saved when more was allowed opens with a finding, and is not worked out."""
    client, costs = browse("designer"), {}
    Ring.objects.filter(job=hatchback.job).update(screws=32767, quantity=32767)
    Box.objects.filter(job=hatchback.job).update(brace_count=32767)
    for page in ("boxes", "findings"):
        assert _asked(client, costs, "get", reverse(page, args=[CODE])).status_code == 200
    assert all(spent.bearable for spent in costs.values()), costs
