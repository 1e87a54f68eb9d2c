"""What the workshop asks for an hour and for material, how long things take it, and which tax."""

from __future__ import annotations

from decimal import Decimal

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from jobs.models.agreement.money_field import money, percent
from jobs.models.base import Record, written_day
from jobs.models.bounded import count, number

LONGEST_WORK = 20_000  # minutes; eight weeks of one person


class WorkKind(models.TextChoices):
    """The kinds of work a workshop has a rate for."""

    WOOD = "wood", _("wood shop")
    COVERING = "covering", _("covering")
    WIRING = "wiring", _("wiring")
    CAR = "car", _("on the car")
    SET_UP = "set_up", _("setting up")
    DESK = "desk", _("planning")


class TaxClass(models.TextChoices):
    """Which of the rates of the law a thing falls under; the rates are entered by date."""

    STANDARD = "standard", _("standard rate")
    REDUCED = "reduced", _("reduced rate")
    EXEMPT = "exempt", _("exempt")


class Rates(models.Model):
    """What an hour costs and how long things take where nobody planned them; None: not said."""

    rate_wood = money(_("an hour in the wood shop"))
    rate_covering = money(_("an hour of covering"))
    rate_wiring = money(_("an hour of wiring"))
    rate_car = money(_("an hour on the car"))
    rate_set_up = money(_("an hour of setting up"))
    rate_desk = money(_("an hour of planning"))
    hour_cost = money(_("an hour costs the workshop"))

    minutes_cut = number(_("to cut one part"), most=LONGEST_WORK)
    minutes_glue = number(_("to glue one joint"), most=LONGEST_WORK)
    minutes_run = number(_("to lay one run and make its ends"), most=LONGEST_WORK)
    minutes_channel = number(_("to set up one channel"), most=LONGEST_WORK)
    minutes_panel = number(_("to take one panel off and put it back"), most=LONGEST_WORK)
    minutes_day = count(_("somebody works in a day"), most=1440, least=60, default=480)

    covering_price = money(_("covering, by the square metre"))
    covering_cost = money(_("covering costs the workshop, by the square metre"))

    usual_deposit = percent(_("usual deposit in per cent of the total"))
    valid_days = count(_("days an offer holds"), most=365, least=1, default=30)

    class Meta:
        abstract = True


class TaxRate(Record):
    """What one class of tax is from a day on, until the next row of its class begins."""

    tax_class = models.CharField(
        _("tax class"), max_length=8, choices=TaxClass, default=TaxClass.STANDARD
    )
    percent = models.DecimalField(
        _("rate in per cent"),
        max_digits=5,
        decimal_places=2,
        validators=[MinValueValidator(Decimal(0)), MaxValueValidator(Decimal(100))],
    )
    valid_from = models.DateField(_("valid from"))

    class Meta:
        verbose_name = _("tax rate")
        ordering = ["tax_class", "-valid_from", "-pk"]

    def __str__(self) -> str:
        return f"{self.get_tax_class_display()}, {written_day(self.valid_from)}"
