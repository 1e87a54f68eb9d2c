"""Whatever is sent to a form or an import, the answer is a page, and soon."""

from __future__ import annotations

import random
import secrets
import time
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any
from unittest.mock import patch

import pytest
from django import forms
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import transaction
from django.test import Client
from django.urls import NoReverseMatch, reverse

from jobs.design.job.whole import JobDesign, load, work_out
from jobs.models import Job
from jobs.pages.forms import strip
from tests.jobs.pages.kinds import KINDS, PARTS, typed
from tests.jobs.pages.limits import MEMORY, extreme, forget_peak, memory

pytestmark = pytest.mark.django_db
CODE = "J-0417"  # of the hatchback
LONGEST = 5.0  # s of the processor
ANSWERS = {200, 302, 400, 403, 404, 405, 413, 422}
UNITS = (
    *("", " mm", " in", " L", " cu ft", " V", " A", " mA", " Ω", " Hz", " kHz", " W", " dB", " %"),
    *(" mm²", " AWG", " °C", " °F", " kg", " N·m", " Ah", " ms", " m/s", " bananas", "e3 mm"),
)
WORDS = (
    *("", " ", "0", "-0", "-1", "NaN", "inf", "-inf", "1e308", "1e-308", "1e400", "9" * 400, "٣"),
    *(
        "1,5",
        "1.234,5",
        "1'000",
        "1 000",
        "½",
        "²",
        "∞",
        "\x00",
        "a\x00b",
        "😀",
        "\u202e",
    ),
    *("<script>x</script>", "{{ 7*7 }}", "{% now %}", "' OR 1=1 --", "../../etc/passwd", "null"),
    *("[]", "{}", "[[[[]]]]", "true", "2026-02-30", "0000-00-00", "9999-12-31", "on", "None"),
    *("0 0; 1 1; 0 1", "0 0; 100 100; 100 0; 0 100", ";;;", "1 2 3 4 5 6 7 8", "a: 1 2 3; b: 4"),
    *("x" * 6000, "1 " * 4000, "\n" * 500, "é" * 300, "20\t1\n30\t2\n40\tx", "0x1F", "1_000"),
)
FILES = (
    *(b"", b"\x00" * 2000, b"\xff\xfe\x00", b"PK\x03\x04", b"%PDF-1.7\n", b"GIF89a"),
    *(b"\xff\xd8\xff\xe0", "frequency".encode("utf-32")),
    *(b"\x89PNG\r\n\x1a\n" + b"\x00" * 60, b"frequency,impedance\n", b"20;8\n30;9\n" * 400),
    *(b"20 8 0\n25 9 1\n" * 30, b"1e400\t1e400\n" * 20, "20\t8 Ω\n".encode("utf-16") * 10),
)  # fmt: skip


def _text(chance: random.Random) -> str:
    """A figure with a unit, right or wrong, or something that is none."""
    if chance.random() < 0.5:
        figure = chance.choice((-1, 1, 1, 1)) * 10 ** chance.uniform(-6, 9)
        return f"{figure:.{chance.randint(0, 6)}f}{chance.choice(UNITS)}"
    return chance.choice(WORDS)


def _value(chance: random.Random, field: forms.Field) -> Any:
    if isinstance(field, forms.FileField):
        name = chance.choice(("a.txt", "a.csv", "a.jpg", "a.HEIC", "ä/../b", "." * 300))
        return SimpleUploadedFile(name, chance.choice(FILES))
    choices = getattr(field.widget, "choices", None)
    if choices is not None and chance.random() < 0.7:
        keys = [str(key) for key, _word in choices]
        return chance.choice([*keys, "-1", "zzz", str(2**70)])
    has_end = type(field) is not forms.CharField or field.max_length
    if has_end and chance.random() < 0.4:
        end = extreme(field, chance.choice(("largest", "smallest")))
        if end is not None:
            return end
    return _text(chance)


@dataclass(frozen=True, kw_only=True)
class Sent:
    """A form, where it is sent to be saved or to be worked out while typed, and what it is sent."""

    url: str
    live: tuple[str, ...] = ()
    least: dict[str, Any] = field(default_factory=dict)

    def form(self, client: Client) -> forms.BaseForm:
        """Read it from its page."""
        form: forms.BaseForm = client.get(self.url).context["form"]
        return form


def _addresses() -> Iterator[Sent]:
    """Every form of the house."""
    job = Job.objects.get(number=417)
    for kind in KINDS:
        try:
            live = [reverse(f"{kind.slug}-preview", args=[CODE])]
        except NoReverseMatch:
            live = []
        new = reverse(f"{kind.slug}-add", args=[CODE])
        yield Sent(url=new, live=tuple(live), least=kind.least(job))
        for row in kind.model.objects.filter(job__number=417)[:2]:
            url = reverse(f"{kind.slug}-edit", args=[CODE, row.pk])
            yield Sent(url=url, live=tuple(f"{preview}?row={row.pk}" for preview in live))
    for part, (least, _field) in PARTS.items():
        yield Sent(url=reverse("part-add", args=[part]), least=least)
    panel = job.panels.first()
    assert panel is not None
    yield Sent(url=reverse("photo-add", args=[CODE, panel.pk]))
    for page in ("brief", "car", "fit"):
        yield Sent(url=reverse(page, args=[CODE]))
    for page in ("workshop", "person-add", "new-job"):
        yield Sent(url=reverse(page))


def _answers(client: Client, url: str, sent: dict[str, Any], as_saved: JobDesign) -> list[int]:
    """Send a form, and read the page it leads to; returns how both were answered.

    Beside a form the strip tells how the job stands: always the same, and half of what a page
    takes. The page after a form that was saved works the job out with what was saved.
    """
    with patch.object(strip, "worked_out", lambda request, job: as_saved):
        answer = client.post(url, sent)
    if answer.status_code != 302:
        return [answer.status_code]
    return [302, client.get(answer.headers["Location"]).status_code]


def _fuzz(client: Client, count: int, seed: int) -> tuple[int, list[tuple[Any, ...]]]:
    """Send so many forms; returns how many were saved, and what went wrong with which values."""
    chance, wrong, saved = random.Random(seed), [], 0
    addresses = list(_addresses())
    assert len(addresses) > 40
    as_saved = work_out(load(Job.objects.get(number=417)))
    forms_at: dict[str, forms.BaseForm] = {}  # a page is read when its form is first sent
    for _ in range(count):
        to = chance.choice(addresses)
        url = chance.choice((to.url, *to.live))
        if to.url not in forms_at:
            forms_at[to.url] = to.form(client)
        form = forms_at[to.url]
        fields, least = list(form.fields), typed(form) | to.least
        few = min(chance.randint(1, 3), len(fields))
        some = fields if chance.random() < 0.1 else chance.sample(fields, few)
        sent = least | {label: _value(chance, form.fields[label]) for label in some}
        forget_peak()
        point = transaction.savepoint()
        try:
            began, before = time.process_time(), memory("VmRSS")
            answers = _answers(client, url, sent, as_saved)
            spent = time.process_time() - began
            grown = memory("VmHWM") - before
        except Exception as error:
            wrong.append((url, repr(error), {label: sent[label] for label in some}))
        else:
            saved += answers[0] == 302
            if not set(answers) <= ANSWERS or spent > LONGEST or grown > MEMORY:
                wrong.append((url, answers, spent, grown, sent))
        transaction.savepoint_rollback(point)
    return saved, wrong


@pytest.mark.parametrize(
    "count", [30, *(pytest.param(1_000, marks=pytest.mark.long, id=f"part {n}") for n in range(20))]
)
def test_nothing_sent_is_too_much(hatchback, browse, count, record_property):
    """No form or import answers with a fault, takes over 5 s or over 300 MB.

    The long count is twenty parts, so that both cores work; each sends something new every time.
    """
    seed = count if count == 30 else secrets.randbits(32)
    saved, wrong = _fuzz(browse("manager"), count, seed)
    record_property("seed", seed)
    record_property("saved", saved)
    assert wrong == [], f"seed {seed}"
    assert saved > count / 10
