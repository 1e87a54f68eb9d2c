"""One line of a price: what it is, how much of it, what one costs, and what that comes to."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _
from django.utils.translation import ngettext

from jobs import money
from jobs.models import TaxClass


class Group(StrEnum):
    """What lines stand together, in the order of the paper."""

    EQUIPMENT = "equipment"
    WOOD = "wood"
    CABLE = "cable"
    COVERING = "covering"
    BY_HAND = "by hand"
    WORK = "work"


GROUPS: dict[Group, Promise] = {
    Group.EQUIPMENT: _("Equipment"),
    Group.WOOD: _("Wood"),
    Group.CABLE: _("Cables, fuses, terminals"),
    Group.COVERING: _("Covering"),
    Group.BY_HAND: _("Further items"),
    Group.WORK: _("Work"),
}


class Unit(StrEnum):
    """What a quantity counts."""

    PIECE = "piece"
    METRE = "m"
    SHEET = "sheet"
    SQUARE_METRE = "m²"
    HOUR = "h"


# What stands behind a quantity, the same in every language.
SIGNS = {Unit.PIECE: "×", Unit.METRE: "m", Unit.SQUARE_METRE: "m²", Unit.HOUR: "h"}


@dataclass(frozen=True, kw_only=True)
class Line:
    """One line; a price or a quantity that nobody knows makes its sum unknown, never zero."""

    group: Group
    # Of the records it stands for: the same in every language.
    key: str
    name: str
    unit: Unit
    quantity: Decimal | None
    each: Decimal | None
    # What one costs the workshop.
    cost_each: Decimal | None = None
    tax_class: str = TaxClass.STANDARD
    currency: str
    # Work is summed in minutes, which are no round number of hours.
    minutes: int | None = None
    # What it is made up of, for whoever asks.
    details: tuple[str, ...] = ()

    @property
    def net(self) -> Decimal | None:
        """What it comes to without tax, in whole coins."""
        return self._comes_to(self.each)

    @property
    def cost(self) -> Decimal | None:
        """What it costs the workshop, in whole coins."""
        return self._comes_to(self.cost_each)

    def _comes_to(self, each: Decimal | None) -> Decimal | None:
        if each is None or self.quantity is None:
            return None
        if self.minutes is not None:
            return money.worked(self.minutes, each, self.currency)
        return money.times(self.quantity, each, self.currency)

    @property
    def amount_said(self) -> str:
        """How much of it, as people write it."""
        return "" if self.quantity is None else amount_said(self.quantity, self.unit)


def amount_said(quantity: Decimal, unit: Unit) -> str:
    """Write a quantity with what it counts."""
    number = money.show_number(quantity)
    if unit == Unit.SHEET:
        return ngettext("%(n)s sheet", "%(n)s sheets", int(quantity)) % {"n": number}
    return f"{number}\N{NO-BREAK SPACE}{SIGNS[unit]}"
