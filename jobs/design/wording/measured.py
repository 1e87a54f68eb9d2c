"""What findings about measured drivers and finished boxes say, and what cures them."""

from __future__ import annotations

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

MEASURED: dict[str, tuple[Promise, Promise]] = {
    # -- the driver and what was measured of it
    "driver-parameters-contradict": (
        _("{where} is given as {value}, but the driver's other figures lead to {limit}."),
        _("Read the data sheet again and correct the figure, or measure the driver."),
    ),
    "sweep-not-symmetric": (
        _(
            "The measured impedance leans to one side of resonance: its middle is at {value}, "
            "that of the fitted driver at {limit}."
        ),
        _("Measure again: driver in free air, lower level, finer steps around the peak."),
    ),
    "sweep-fits-badly": (
        _(
            "No driver fits the measured impedance well: the curves differ by {value}, {limit} "
            "is good enough."
        ),
        _("Listen for a rattle, take the driver out of any box, and measure again."),
    ),
    "coil-resistance-fitted": (
        _(
            "{where}: Re ({value}) was fitted; this coil loses so much at resonance that a fit may "
            "take its losses for resistance."
        ),
        _("Measure the resistance across the terminals with a meter and enter it."),
    ),
    # -- the finished box by its impedance
    "box-tuned-off": (
        _("{where}: the finished box resonates at {value}; drawn was {limit}."),
        _(
            "Trim the port or the added mass and measure again. A closed box: look for litres that "
            "were lost or won, and whether the driver is the one that was reckoned with."
        ),
    ),
    "box-leaks": (
        _(
            "{where}: what the finished box loses, taken as one leak, is a QL of {value}; a sound "
            "box of its kind has {limit} or more."
        ),
        _(
            "Feel along gasket, terminals and seams while it plays low; seal, and measure again. "
            "Lining looks the same."
        ),
    ),
    "losses-not-one-leak": (
        _(
            "{where}: a single leak does not explain what the finished box loses: it misses the "
            "curve by {value}, losses in port and lining beside it by {limit}."
        ),
        _("Look at the port: sharp edges, cloth or lining before its mouth, too narrow a bend."),
    ),
    "box-sweep-fits-badly": (
        _(
            "{where}: no box of its kind fits the measured impedance well: the curves differ by "
            "{value}, {limit} is good enough."
        ),
        _("Listen for a rattle or a loose panel, tighten the driver, and measure again."),
    ),
    "box-sweep-cannot-be-used": (
        _("The sweep of {where} proves nothing: {value}."),
        _("Measure again, or correct the text of the sweep."),
    ),
    "measured-differs-from-catalogue": (
        _("{where} was measured as {value}; the catalogue says {limit}."),
        _("Measure again. If it stays so, correct the catalogue or design with what you measured."),
    ),
    "sweep-cannot-be-used": (
        _("The sweep of {where} tells nothing: {value}."),
        _("Measure again, or correct the text of the sweep."),
    ),
}
