"""A data sheet is pasted: its figures are shown beside where they stood, and taken one by one."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from jobs import access
from jobs.models import Driver, Part
from jobs.models.parts.catalogue import misfits
from jobs.pages.forms.fields import key_of
from jobs.pages.forms.forms import RecordForm
from jobs.pages.forms.shown import in_words
from jobs.pages.workshop.catalogue import part_page, part_to_edit, said_of
from jobs.pages.workshop.part_forms import FORMS
from jobs.pages.workshop.sheet_text import (
    LONGEST_SHEET,
    SAME,
    Reading,
    other_kind,
    ratings_named,
    read_sheet,
)

# Without one of each of these a driver cannot be worked out or cut in.
WANTED = (
    ("fs",),
    ("qts", "qes"),
    ("vas", "cms"),
    ("sd",),
    ("re",),
    ("xmax",),
    ("power",),
    ("nominal_impedance",),
    ("outer_diameter",),
    ("cutout_diameter",),
    ("depth",),
)
# So many figures that disagree with what stands there are a sheet of something else.
STRANGERS = 3


@dataclass(frozen=True, kw_only=True)
class Line:
    """One figure of the sheet beside what the part holds so far."""

    reading: Reading
    label: Any
    now: str
    doubts: list[str]
    taken: bool = False


@dataclass(frozen=True, kw_only=True)
class Pasted:
    """A pasted sheet: its text, what was read, and what is to be said of the whole."""

    text: str
    lines: list[Line]
    remarks: list[str]


def read(text: str, kind: str, form: RecordForm[Any], taken: list[str]) -> Pasted:
    """Read a sheet for a part and hold it against itself and against what stands there."""
    readings = read_sheet(text, kind, form.fields)
    contradicted = _contradictions(form, readings)
    lines = [
        Line(
            reading=reading,
            label=form.fields[reading.field].label,
            now=str(in_words(form.fields[reading.field], form[reading.field].value()) or ""),
            doubts=[doubt for doubt in (reading.doubt, contradicted.get(reading.field)) if doubt],
            taken=reading.field in taken,
        )
        for reading in readings
    ]
    return Pasted(text=text, lines=lines, remarks=list(_remarks(text, kind, form, readings)))


def _contradictions(form: RecordForm[Any], readings: list[Reading]) -> dict[str, str]:
    """Say of the sheet's own figures which cannot stand beside each other."""
    if not isinstance(form.instance, Driver):
        return {}
    stands = {reading.field: reading.value for reading in readings if reading.text}
    stands.setdefault("coils", form.instance.coils)
    driver = Driver(**stands)
    return said_of(form, driver) | misfits(driver)


def _remarks(text: str, kind: str, form: RecordForm[Any], readings: list[Reading]) -> list[str]:
    """What is to be said of the sheet as a whole: of another part, cut short, or unread."""
    remarks = []
    read_well = [reading for reading in readings if reading.text]
    if len(text) > LONGEST_SHEET:
        remarks.append(_("This is a long text: only its beginning was read."))
    if not read_well:
        remarks.append(
            _("No figure of this kind of part was recognised: each has its name before it.")
        )
    other = other_kind(text, kind)
    if other:
        words = {"other": Part.Kind(other).label, "kind": Part.Kind(kind).label}
        remarks.append(_("This reads like the sheet of: %(other)s, not of: %(kind)s.") % words)
    if kind == Part.Kind.AMPLIFIER and (ratings := ratings_named(text)):
        sentence = _("Type the power into each load into its list: %(ratings)s.")
        remarks.append(sentence % {"ratings": "; ".join(ratings)})
    if form.instance.pk and _strangers(form, read_well) >= STRANGERS:
        remarks.append(
            _("Most of it differs from what stands here: is it the sheet of another part?")
        )
    missing = _missing(form, readings) if read_well and not other else []
    if missing:
        remarks.append(_("Not in this text: %(figures)s.") % {"figures": ", ".join(missing)})
    return remarks


def _strangers(form: RecordForm[Any], readings: list[Reading]) -> int:
    """Count the figures that differ from those stored; 0 while most agree."""
    stored = [(getattr(form.instance, reading.field, None), reading) for reading in readings]
    known = [(value, reading.value) for value, reading in stored if isinstance(value, float | int)]
    apart = [1 for value, other in known if abs(value - other) > SAME * max(abs(value), abs(other))]
    return len(apart) if 2 * len(apart) > len(known) else 0


def _missing(form: RecordForm[Any], readings: list[Reading]) -> list[str]:
    if not isinstance(form.instance, Driver):
        return []
    named = {reading.field for reading in readings if reading.text}
    return [str(form.fields[names[0]].label) for names in WANTED if named.isdisjoint(names)]


@require_POST
def part_sheet(request: HttpRequest, kind: str) -> HttpResponse:
    """Read a pasted sheet; what is ticked goes into the form, and nothing is saved."""
    user = access.signed_in(request)
    access.require_member(user)
    access.require(access.may_spec(user))
    if kind not in FORMS:
        raise Http404
    key = key_of(request.POST.get("row"))
    part = FORMS[kind]._meta.model() if key is None else part_to_edit(key)
    if key is not None and part.kind != kind:
        raise Http404
    form = FORMS[kind](instance=part)
    taken = request.POST.getlist("figure") if "take" in request.POST else []
    sheet = read(request.POST.get("sheet", "").replace("\0", ""), kind, form, taken)
    if request.headers.get("HX-Request"):
        return render(request, "parts/workshop/sheet_figures.html", {"sheet": sheet})
    # As they were written; nobody has saved them yet.
    figures = {line.reading.field: line.reading.text for line in sheet.lines if line.taken}
    filled = FORMS[kind](instance=part, initial=figures)
    return part_page(request, kind, filled, sheet=sheet)


urlpatterns = [path("catalogue/sheet/<str:kind>/", part_sheet, name="part-sheet")]
