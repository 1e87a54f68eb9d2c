"""The workshop itself: its name, units and paper, what it cuts with, its cable and its labels."""

from __future__ import annotations

import math
from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from functools import cache
from typing import Any

from django.conf import settings
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _
from simple_history.models import HistoricalRecords

from jobs.models.agreement.rates import Rates
from jobs.models.bounded import count, figure, number, prose


class Machines(models.Model):
    """What the workshop's saw and router can do."""

    class Cutting(models.TextChoices):
        PANEL_SAW = "panel saw", _("panel saw: cuts run from edge to edge")
        ROUTER = "router", _("router: cuts run anywhere")

    cutting = models.CharField(
        _("sheets are cut with"), max_length=9, choices=Cutting, default=Cutting.PANEL_SAW
    )
    kerf = models.FloatField(
        _("width of the cut"), default=0.0032, validators=[MinValueValidator(0.0)]
    )
    sheet_trim = models.FloatField(
        _("cut off all round a sheet first"), default=0.01, validators=[MinValueValidator(0.0)]
    )
    saw_tilt = models.FloatField(
        _("saw tilts from square up to"),
        default=math.pi / 4,
        validators=[MinValueValidator(0.0), MaxValueValidator(math.pi / 2)],
    )
    smallest_offcut = models.FloatField(
        _("offcuts kept from"), default=0.1, validators=[MinValueValidator(0.0)]
    )

    # What the files for a router show beside the lines to follow.
    router_tool = figure(_("diameter of the router's tool"))
    router_relief = models.BooleanField(_("inside corners drilled out"), default=False)
    router_tab = figure(_("width of a tab that holds a part"))
    router_tabs = count(_("tabs to a part"), most=20, default=4)

    class Meta:
        abstract = True


class Workshop(Machines, Rates):
    """The workshop's own choices: its name on the sheets, units, paper, currency."""

    class Units(models.TextChoices):
        METRIC = "metric", _("metric (mm, L, mm²)")
        IMPERIAL = "imperial", _("imperial (in, cu ft, AWG)")

    class Paper(models.TextChoices):
        A4 = "a4", "A4"
        LETTER = "letter", "Letter"
        A3 = "a3", "A3"

    name = models.CharField(_("name"), max_length=80, default="Undertrim")
    # The invented workshop, whose passwords everybody knows: never to be run for real.
    is_demo = models.BooleanField(default=False, editable=False)
    address = prose(_("address"))
    phone = models.CharField(_("phone"), max_length=40, blank=True)
    units = models.CharField(_("units"), max_length=10, choices=Units, default=Units.METRIC)
    paper = models.CharField(_("paper"), max_length=10, choices=Paper, default=Paper.A4)
    language = models.CharField(
        _("language"),
        max_length=8,
        choices=settings.LANGUAGES,
        default=settings.LANGUAGE_CODE,
        help_text=_("Of what is printed for a customer with whom no language is entered."),
    )
    currency = models.CharField(_("currency"), max_length=3, default="EUR")
    warranty = prose(_("warranty and next check, for the customer"))
    # When somebody is to be called; nobody is reminded where these are empty.
    first_check_weeks = number(_("weeks to the first check"), most=104, least=1)
    warranty_months = number(_("months of warranty on our work"), most=240, least=1)
    # Where a phone in the bay finds this app; codes on labels lead there.
    web_address = models.CharField(_("web address of this app"), max_length=120, blank=True)
    # What is cut and ordered beyond the length of the route.
    cable_slack = models.FloatField(_("added to every cable, as a share"), default=0.1)
    cable_per_end = models.FloatField(_("added at each end"), default=0.1)
    heat_shrink = models.FloatField(_("heat-shrink on each end"), default=0.04)
    # The sheet of adhesive labels in the printer.
    label_width = models.FloatField(_("width of a label"), default=0.094)
    label_height = models.FloatField(_("height of a label"), default=0.029)
    label_columns = count(_("labels across"), most=20, default=2)
    label_rows = count(_("labels down"), most=60, default=9)
    label_left = models.FloatField(_("paper edge to the first label, across"), default=0.009)
    label_top = models.FloatField(_("paper edge to the first label, down"), default=0.009)
    label_gap = models.FloatField(_("gap between labels, across"), default=0.004)
    label_row_gap = models.FloatField(_("gap between labels, down"), default=0.0)
    label_wrap = models.FloatField(_("left blank to go round the cable"), default=0.014)
    history = HistoricalRecords()

    def __str__(self) -> str:
        return self.name

    def save(self, *args: Any, **kwargs: Any) -> None:
        """Save; whoever asks from now on reads it anew."""
        super().save(*args, **kwargs)
        _AT_HAND.set(None)

    @classmethod
    def read(cls) -> Workshop:
        """Read the one workshop as it is saved; unsaved defaults before anyone has set it."""
        return next(iter(cls.objects.raw(_read_text())), None) or cls()

    @classmethod
    def current(cls) -> Workshop:
        """Return the workshop as it was when this request began, to be looked at only."""
        return _AT_HAND.get() or cls.read()


@cache
def _read_text() -> str:
    """The query for the workshop, as text: every request asks, and building it took longest."""
    return str(Workshop.objects.order_by("pk")[:1].query)


_AT_HAND: ContextVar[Workshop | None] = ContextVar("workshop", default=None)


@contextmanager
def workshop_at_hand() -> Iterator[Workshop]:
    """Read the workshop once for all that asks for it inside: a page asks some three times."""
    workshop = Workshop.read()
    before = _AT_HAND.set(workshop)
    try:
        yield workshop
    finally:
        _AT_HAND.reset(before)
