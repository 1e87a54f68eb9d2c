"""What the findings about the price say: what the total does not hold yet."""

from __future__ import annotations

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

PRICE: dict[str, tuple[Promise, Promise]] = {
    "price-unknown": (
        _("Without a price, so not in the total: {value}."),
        _(
            "Enter the price in the catalogue, of an hour with the rates of the workshop; 0 where "
            "it is free."
        ),
    ),
    "work-without-minutes": (
        _("Nobody said how long these take, so they are not in the total: {value}."),
        _("Enter the minutes of the step, or the usual minutes with the rates of the workshop."),
    ),
    "tax-rate-unknown": (
        _("No tax rate holds on {limit} for: {value}. The total is without that tax."),
        _("Enter the rate and the day it begins with the rates of the workshop."),
    ),
    "cable-not-priced": (
        _("Without a cable or a length, so not in the total: {value}."),
        _("Choose the cable and enter the length on the wiring page."),
    ),
    "wood-not-priced": (
        _("Not laid out on a sheet, so not in the total: {value}."),
        _("Enter the dimensions and the sheet material, and the size of its sheet."),
    ),
    "above-budget": (
        _("The total of {value} is more than the budget of {limit}."),
        _("Take something out, or talk about it before the work begins."),
    ),
}
