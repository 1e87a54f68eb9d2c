"""What the findings about charging, reserve and bass notes say, and what cures them."""

from __future__ import annotations

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

SUPPLY: dict[str, tuple[Promise, Promise]] = {
    # -- what the car gives
    "alternator-rated-current-unknown": (
        _("The rated current of the alternator is not entered."),
        _("Read it off the plate and enter it."),
    ),
    "alternator-idle-current-unknown": (
        _("What the alternator gives at idle is not entered."),
        _("Read it off the plate, or ask the vehicle maker, and enter it."),
    ),
    "alternator-hot-factor-unknown": (
        _("How much less the alternator gives when hot is not entered."),
        _("Ask its maker and enter it."),
    ),
    "vehicle-load-unknown": (
        _("What the car itself draws is not entered."),
        _("Measure it with a clamp meter, engine running, and enter it."),
    ),
    "battery-charge-current-unknown": (
        _("The current a recovering battery takes is not entered."),
        _("Measure it after a start, or ask the battery maker, and enter it."),
    ),
    "amplifier-idle-power-unknown": (
        _("What {where} draws without music is not entered; a high figure is assumed."),
        _("Enter it from the part maker's sheet, or measure it."),
    ),
    "supply-short-driving": (
        _("On the road the charging falls short by {amount}: the battery drains as you drive."),
        _("Fit less load, or ask the vehicle maker about a stronger charging source."),
    ),
    "supply-short-idling": (
        _("At idle the charging falls short by {amount}: the battery drains in a queue."),
        _("Fit less load, or tell the customer to play quietly when standing."),
    ),
    "start-stop-caution": (
        _("The engine stops by itself; the audio system then lives on the battery."),
        _("Size the reserve for it, and leave the vehicle maker's battery sensor working."),
    ),
    "start-stop-unknown": (
        _("Nobody noted whether the engine stops by itself."),
        _("Find out and enter it on the car page."),
    ),
    "smart-charging-caution": (
        _("The car commands its charging voltage with a sensor on the battery."),
        _(
            "Ground on the car side of the sensor, never on the battery post, as the vehicle "
            "maker says."
        ),
    ),
    "smart-charging-unknown": (
        _("Nobody noted how the car commands its charging."),
        _("Look for a sensor on the battery post, ask the vehicle maker, and enter it."),
    ),
    "high-voltage-vehicle-caution": (
        _("The car has a high-voltage system. Its cables are orange."),
        _(
            "Keep away from every orange cable. Isolation is for people qualified for it, after "
            "the vehicle maker's procedure."
        ),
    ),
    "high-voltage-vehicle-unknown": (
        _("Nobody noted whether the car has a high-voltage system."),
        _("Find out before any work on it, and enter it on the car page."),
    ),
    "high-voltage-tap": (
        _("The audio system is planned on the high-voltage network. This can kill."),
        _("Feed it from the 12 V network only. Leave orange cables alone."),
    ),
    "forty-eight-volt-tap": (
        _("12 V parts are planned on the 48 V network. They would be destroyed."),
        _("Feed them from the 12 V network only."),
    ),
    "dc-dc-current-unknown": (
        _("What the DC-DC converter gives all the time is not entered."),
        _("Ask its maker or the vehicle maker, and enter it."),
    ),
    "dc-dc-accessory-limit-unknown": (
        _("How much added load the vehicle maker allows on the converter is not entered."),
        _("Ask the vehicle maker and enter it. Without an answer, plan for little."),
    ),
    "dc-dc-accessory-limit-exceeded": (
        _("The added load draws {value} on average; the vehicle maker allows {limit}."),
        _("Fit less load."),
    ),
    "dc-dc-accessory-limit-exceeded-on-peaks": (
        _("The added load draws {value} at full output; the vehicle maker allows {limit}."),
        _("Ask the vehicle maker whether peaks count, or fit less load."),
    ),
    # -- engine off
    "reserve-unknown": (
        _("How long the battery plays with the engine off cannot be worked out."),
        _("Enter capacity, its rate and the exponent from the battery maker's sheet."),
    ),
    "reserve-short": (
        _("With the engine off the battery plays for {value}; {limit} was wanted."),
        _("Fit a larger battery, or agree on less with the customer."),
    ),
    "key-off-added-high": (
        _("With the key off our parts draw {value}; more than {limit} empties a battery."),
        _("Find the part that stays awake; start with the turn-on runs."),
    ),
    "key-off-added-unknown": (
        _("What our parts draw with the key off is not measured."),
        _("Wait until the car sleeps, measure, and enter it."),
    ),
    "key-off-total-high": (
        _("With the key off the whole car draws {value}; more than {limit} empties a battery."),
        _("Wait until the car sleeps and measure again; then find what stays awake."),
    ),
    "key-off-total-unknown": (
        _("What the whole car draws with the key off is not measured."),
        _("Wait until the car sleeps, measure, and enter it."),
    ),
    # -- a bass note
    "note-collapses": (
        _("A bass note asks {value} of {where}; the feed can give {limit} at most."),
        _("Take larger or shorter cable, or limit the level."),
    ),
    "note-below-minimum-voltage": (
        _("On a bass note {where} sees only {value}; below {limit} it may switch off."),
        _("Take larger or shorter cable, or limit the level."),
    ),
    "amplifier-minimum-voltage-unknown": (
        _("The lowest supply voltage of {where} is not entered."),
        _("Enter it from the part maker's sheet."),
    ),
    "capacitor-needs-fuse-and-slow-charge": (
        _("The capacitor bank at {where} is a source of its own: a short empties it at once."),
        _("Fuse it on its own, and charge and empty it slowly through a resistor."),
    ),
    "capacitor-gain-small": (
        _("The capacitor bank at {where} lifts the lowest voltage by only {value}."),
        _("Leave it out; better cable helps more."),
    ),
}
