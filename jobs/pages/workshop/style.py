"""The house style on one page: every part as it is to be used, for whoever builds the next page."""

from __future__ import annotations

import datetime as dt
import math
from types import SimpleNamespace
from typing import Any

from django import forms
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.views.decorators.http import require_safe

from jobs import access
from jobs.drawings.pencil.axis import Axis
from jobs.drawings.pencil.chart import Chart, Limit, Marker, Series, chart, data_table

# Examples are invented; they are shown to the workshop manager only and are not translated.
STEPS = [
    ("Brief", "done", "complete"),
    ("Car", "look", "1 to decide"),
    ("Equipment", "missing", "2 missing"),
    ("Channels", "done", "complete"),
    ("Box", "done", "complete"),
    ("Wiring", "stop", "1 stop"),
    ("Panels", "missing", "not begun"),
    ("Findings", "stop", "1 stop, 1 look"),
    ("Bay", "missing", "3 of 18"),
    ("Sheets", "missing", "none issued"),
]
TERMS = (
    "qtc tuning net_volume excursion port_speed crossover delay polarity load fuse voltage_drop"
    " fate"
)
ICONS = "panel search add change remove undo print photo car speaker box fuse cable sheet save next"


class StyleForm(forms.Form):
    """One field of each kind."""

    volume = forms.CharField(label="net volume", initial="21.4 L", help_text="Air only.")
    width = forms.CharField(label="width, outside", initial="480 mm")
    material = forms.ChoiceField(
        label="material", choices=[("a", "birch 15 mm"), ("b", "MDF 18 mm")]
    )
    looks = forms.ChoiceField(
        label="looks",
        choices=[("h", "hidden"), ("d", "discreet"), ("s", "on show")],
        widget=forms.RadioSelect,
        initial="d",
    )
    chosen = forms.BooleanField(label="this is the one we build", required=False)
    wishes = forms.CharField(label="in the customer's words", widget=forms.Textarea, required=False)


def _form(data: dict[str, str] | None = None) -> StyleForm:
    form = StyleForm(data, auto_id=f"id_{'wrong' if data else 'right'}_%s")
    for name, unit, term in (("volume", "L", "net_volume"), ("width", "mm", None)):
        vars(form.fields[name]).update(plain_unit=unit, term=term)
    return form


def _wrong() -> StyleForm:
    form = _form({"volume": "12 bananas", "width": "", "material": "a", "looks": "d"})
    form.add_error(
        "volume", "“bananas” is no unit of volume. Write for instance 21 L or 0.75 cu ft."
    )
    return form


def _finding(severity: str, where: str, says: str, **more: Any) -> SimpleNamespace:
    return SimpleNamespace(
        severity=severity, where=where, says=says, code="invented-example", **more
    )


def _curve() -> Chart:
    hz = [20 * 10 ** (i / 40) for i in range(53)]

    def sealed(fc: float, q: float) -> list[float]:
        return [
            90
            + 20 * (2 * math.log10(f / fc))
            - 10 * math.log10(((f / fc) ** 2 - 1) ** 2 + (f / fc / q) ** 2)
            for f in hz
        ]

    return Chart(
        key="style-curve",
        title="Level over frequency",
        description="Two sealed boxes; the drawn one is flat down to 44 Hz.",
        x=Axis(label="frequency", unit="Hz", low=20, high=400, log=True),
        y=Axis(label="level", unit="dB", low=70, high=100),
        series=[
            Series(name="21 L", x=hz, y=sealed(44, 0.71)),
            Series(name="12 L, saved", x=hz, y=sealed(56, 0.95), ghost=True),
        ],
        limits=[Limit(value=97, words="asked for")],
        markers=[Marker(x=44, words="f3 44 Hz")],
    )


@require_safe
def style(request: HttpRequest) -> HttpResponse:
    """Show every part of the house style."""
    user = access.signed_in(request)
    access.require_member(user)
    access.require(access.may_manage(user))
    curve = _curve()
    head, rows = data_table(curve, [25, 50, 100, 200])
    context = {
        "steps": [
            SimpleNamespace(
                label=label, state=state, says=says, url="#strip", current=label == "Box"
            )
            for label, state, says in STEPS
        ],
        "colours": [
            "paper",
            "sheet",
            "graphite",
            "pencil",
            "hair",
            "edge",
            "ink",
            "stop",
            "look",
            "note",
            "done",
        ],
        "marks": ["stop", "look", "note", "done", "missing", "accepted", "released"],
        "icons": ICONS.split(),
        "terms": TERMS.split(),
        "stages": [
            "enquiry",
            "brief",
            "spec",
            "agreed",
            "parts",
            "in the bay",
            "set up",
            "handed over",
        ],
        "right": _form(),
        "wrong": _wrong(),
        "drawing": chart(curve),
        "head": head,
        "rows": [[f"{v:.1f}" if v is not None else None for v in row] for row in rows],
        "cells": [
            ("job", "J-0042"),
            ("car", "Estate, 2016"),
            ("stage", "in the bay"),
            ("revision", "3"),
        ],
        "results": [
            ("net volume", "21.4 L", "19.8 L"),
            ("Qtc", "0.71", "0.71"),
            ("f3", "44 Hz", "47 Hz"),
            ("excursion", "6.2 mm", None),
        ],
        "differences": [("width", "500 mm", "480 mm"), ("material", "birch 15 mm", "MDF 18 mm")],
        "table_head": ["run", "from", "to", "size", "length"],
        "table_rows": [
            ["P03", "battery", "main fuse", "25 mm²", "0.35 m"],
            ["P04", "main fuse", "block in the boot", "25 mm²", "4.90 m"],
        ],
        "findings": [
            _finding(
                "stop",
                "P03, battery to block",
                "The fuse is larger than the thinnest cable behind it can bear.",
                shown_figure="80 A",
                shown_bound="60 A",
                source="invented for this page",
                cure="Fit a fuse of 60 A or less, or a thicker cable.",
                decision=None,
            ),
            _finding(
                "look",
                "Box, port",
                "The air in the port will be heard at full level.",
                shown_figure="19 m/s",
                shown_bound="17 m/s",
                source="invented for this page",
                cure="Take a wider port.",
                decision=SimpleNamespace(
                    name="R. Example",
                    decided_at=dt.date(2026, 3, 4),
                    reason="Never played that loud.",
                ),
            ),
            _finding("note", "Rear doors", "The factory amplifier stays in use.", decision=None),
        ],
        "step_open": "Pull the door card straight off, twelve clips.",
    }
    return render(request, "pages/workshop/style.html", context)


urlpatterns = [path("style/", style, name="style")]
