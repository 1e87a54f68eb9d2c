"""What a person adds to the price by hand: a thing, or work of one kind."""

from __future__ import annotations

from decimal import Decimal

from django.core.validators import MinValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from jobs.models.agreement.money_field import money
from jobs.models.agreement.rates import LONGEST_WORK, TaxClass, WorkKind
from jobs.models.bounded import number
from jobs.models.job import Job, JobPart

THING = "thing"


class PriceLine(JobPart):
    """One line the design does not bring along."""

    KINDS = [(THING, _("a thing")), *WorkKind.choices]

    job = models.ForeignKey(Job, models.CASCADE, related_name="price_lines")
    kind = models.CharField(_("kind"), max_length=8, choices=KINDS, default=THING)
    text = models.CharField(_("what it is"), max_length=120)
    quantity = models.DecimalField(
        _("quantity"),
        max_digits=7,
        decimal_places=2,
        default=Decimal(1),
        validators=[MinValueValidator(Decimal("0.01"))],
    )
    each = money(_("price of one"))
    cost = money(_("one costs the workshop"))
    tax_class = models.CharField(
        _("tax class"), max_length=8, choices=TaxClass, default=TaxClass.STANDARD
    )
    minutes = number(_("minutes"), most=LONGEST_WORK)

    class Meta(JobPart.Meta):
        verbose_name = _("line of the price")
        ordering = ["pk"]

    def __str__(self) -> str:
        return self.text

    @property
    def is_work(self) -> bool:
        """Whether it is counted by the hour."""
        return self.kind != THING
