"""What the findings about the power tree say: voltage, current, fuses, short circuit."""

from __future__ import annotations

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

POWER: dict[str, tuple[Promise, Promise]] = {
    # -- the tree itself
    "loop": (
        _("The runs at {where} form a ring; current can go round a fuse."),
        _("Open the ring: one way only from each source to each load."),
    ),
    "load-without-source": (
        _("No run feeds {where}."),
        _("Enter the run that leads to it, or remove it."),
    ),
    "node-without-source": (
        _("Nothing feeds {where}, and nothing hangs on it."),
        _("Enter its runs, or remove it."),
    ),
    "two-mains-on-one-stud": (
        _("{where} has {value} cable lugs on {limit} studs."),
        _("Fit a block behind a main fuse and branch off there."),
    ),
    "length-unknown": (
        _("Run {where}: its length ({value}) is not entered."),
        _("Measure it along the real route and enter it."),
    ),
    "conductor-unknown": (
        _("Run {where}: no cable is chosen ({value})."),
        _("Choose one on the wiring page."),
    ),
    "return-unknown": (
        _("Run {where}: how its current comes back is not known."),
        _(
            "Enter the return cable, or measure the chassis way and enter it. Ground only where "
            "the vehicle maker allows."
        ),
    ),
    "source-resistance-unknown": (
        _("The inner resistance of {where} is not entered."),
        _("Enter it from the part maker's sheet, or measure it with a battery tester."),
    ),
    "current-limit-unknown": (
        _("The most current that {where} can give is not entered."),
        _("Read it off the plate or the part maker's sheet, and enter it."),
    ),
    "load-draw-unknown": (
        _("What {where} draws cannot be worked out: power or efficiency is not entered."),
        _("Enter it from the part maker's sheet."),
    ),
    "no-solution": (
        _("The loads want {value}; the tree fed by {where} can carry {limit} at most."),
        _("Shorten the runs, take larger cable, or fit less load."),
    ),
    "voltage-below-load-minimum": (
        _("{where} gets only {value} at full output; its maker asks for at least {limit}."),
        _("Take larger or shorter cable, or fit less load."),
    ),
    "converter-at-limit": (
        _("{where} gives {value}, all it can ({limit}); the battery makes up the rest."),
        _("Fit less load, or ask the vehicle maker or part maker what more is allowed."),
    ),
    # -- carrying current
    "ampacity-exceeded": (
        _("Run {where} carries {value} at worst; its cable may carry {limit}."),
        _("Take larger cable. Do not fit it so: it gets hot."),
    ),
    "ampacity-outside-table": (
        _("No published rating covers the cable {value} of run {where}, as it lies."),
        _("Enter the ampacity from the cable maker's sheet, or choose another cable."),
    ),
    "insulation-below-ambient": (
        _("Run {where} lies where it gets {limit} hot; its insulation stands {value}."),
        _("Take cable for a higher temperature, or another route."),
    ),
    "insulation-unknown": (
        _("The temperature class of run {where} is not entered; {limit} is assumed."),
        _("Read it off the cable or its maker's sheet, and enter it."),
    ),
    "drop-over-limit": (
        _("{where} loses {value} on the way at full output; {limit} is the aim."),
        _("Take larger or shorter cable, or accept a little less power."),
    ),
    # -- fuses
    "unprotected-conductor": (
        _("Run {where} has no fuse where it leaves {value}. A short would burn it."),
        _("Fit a fuse close to that end, no larger than the cable may carry."),
    ),
    "second-source-unprotected": (
        _("Run {where} is fused at one end, but {value} feeds it at the other."),
        _("Fit a second fuse close to that end. Every end with a source needs its own."),
    ),
    "fuse-above-conductor": (
        _("Run {where}: its fuse lets {value} pass; the cable may carry {limit}."),
        _("Fit a smaller fuse or a larger cable. Never a larger fuse."),
    ),
    "fuse-below-load": (
        _("Run {where} carries {value}; its warm fuse holds {limit}. It will blow."),
        _(
            "Fit less load. A larger fuse only together with cable that may carry it, and within "
            "the part maker's figure."
        ),
    ),
    "fuse-load-above-75-percent": (
        _("Run {where} carries {value}; more than {limit} ages its warm fuse."),
        _("The next larger fuse, only if cable and part maker allow it; else less load."),
    ),
    "fuse-beyond-178-mm": (
        _(
            "Run {where}: the fuse sits {value} from its source. The rule allows {limit}; more is "
            "a habit of the trade and needs somebody who answers for it."
        ),
        _("Move the fuse closer, or put the bare stretch into a sheath."),
    ),
    "fuse-beyond-1016-mm": (
        _(
            "Run {where}: the fuse sits {value} from its battery, in a sheath. The rule allows "
            "{limit}; more is allowed on boats only."
        ),
        _("Move the fuse closer to the battery."),
    ),
    "fuse-too-far": (
        _("Run {where}: the fuse sits {value} from its source; never more than {limit}."),
        _("Move the fuse closer. The cable before it has no protection."),
    ),
    "fuse-beyond-run-end": (
        _("Run {where}: the fuse is said to sit {value} along a cable of {limit}."),
        _("Measure again from the source to the fuse, and enter it."),
    ),
    "fuse-distance-unknown": (
        _("Run {where}: how far its fuse sits from the source is not entered."),
        _("Measure along the cable and enter it; closer is safer."),
    ),
    "fuse-voltage-low": (
        _("A fuse of run {where} is rated for {value}; its network can reach {limit}."),
        _("Take a fuse rated for that voltage: a lower one may go on arcing when it opens."),
    ),
    "fuse-voltage-unknown": (
        _("A fuse of run {where} has no rated voltage entered."),
        _("Enter it from the part maker's sheet."),
    ),
    "breaking-capacity-low": (
        _("Run {where}: a short can drive {value}; the fuse safely breaks {limit}."),
        _("Fit a fuse of a kind that breaks more, as its maker's sheet says."),
    ),
    "breaking-capacity-unknown": (
        _("Run {where}: a short can drive {value}; what the fuse breaks is not entered."),
        _("Enter the breaking capacity from the part maker's sheet, or take another fuse."),
    ),
    "fault-current-unknown": (
        _("How much current a short at {where} drives is not known."),
        _("Enter the battery maker's figure, or the inner resistance."),
    ),
    # -- short circuit
    "insulation-damaged-first": (
        _("Run {where}: in a short the fuse lets {value} through; the cable stands {limit}."),
        _("Fit a smaller or faster fuse, or a larger cable."),
    ),
    "fuse-may-not-open": (
        _("Run {where}: a short at the far end drives {value}; the fuse needs {limit}."),
        _("Fit a smaller fuse, or a larger cable so that more current flows in a short."),
    ),
    "fuse-opens-slowly": (
        _("Run {where}: after a short at the far end the fuse takes {value}; {limit} is allowed."),
        _("Fit a smaller or faster fuse, or a larger cable."),
    ),
    "fuse-curve-unknown": (
        _("Run {where}: it is not entered how fast its fuse opens."),
        _("Enter one point of the curve from the part maker's sheet."),
    ),
    "cold-resistance-unknown": (
        _("How weak {where} is in the cold is not known, so a slow fuse may go unseen."),
        _("Enter the cold cranking current from the battery, or its cold resistance."),
    ),
    # -- states of the car
    "fuse-opens-on-start": (
        _("Run {where}: {value} flow for seconds; its fuse holds {limit} and opens."),
        _("Keep the batteries apart while the engine starts: a relay, a diode or a converter."),
    ),
    "fuse-may-open-on-start": (
        _("Run {where}: {value} flow for seconds; its fuse holds {limit} for ever."),
        _("Keep the batteries apart while the engine starts: a relay, a diode or a converter."),
    ),
    "start-overheats-run": (
        _("Run {where}: {value} flow for seconds; its cable stands {limit} that long."),
        _("Keep the batteries apart while the engine starts, or take larger cable."),
    ),
    "low-voltage-on-start": (
        _("{where}: {value} reach it; its maker asks for {limit}. It may fall silent."),
        _("Let the turn-on fall away while the engine starts; no harm is done."),
    ),
    "no-isolator": (
        _("Nothing keeps {where} apart with the engine off: music may empty both."),
        _("Fit a charge relay, an isolator or a DC-DC converter between them."),
    ),
    "commanded-charge-falls": (
        _("The car lets its charging voltage fall to 12.5 V or less: {where} stays half charged."),
        _("Charge it through a DC-DC converter that the running engine turns on."),
    ),
    "battery-never-charged": (
        _("Nothing leads to {where}: no source charges it."),
        _("Enter the run, relay or converter that charges it, or remove it."),
    ),
    "converter-feeds-itself": (
        _("The output of {where} is joined to its own input."),
        _("Take away the run that joins them: it drives current round in a ring."),
    ),
    "contact-over-rating": (
        _("{where} carries {value}; its maker allows {limit}."),
        _("Fit a larger one, or less load behind it."),
    ),
    "contact-rating-unknown": (
        _("What {where} may carry is not entered."),
        _("Enter it from its maker's sheet."),
    ),
    "contact-fuse-above-rating": (
        _("The fuses at {where} let more through than the {limit} its maker allows."),
        _("Fit smaller fuses, or a larger one of its kind."),
    ),
    # -- voltage
    "networks-joined": (
        _("{where} are joined: {value} and {limit} on one network."),
        _("Separate them by a converter. Do not connect them."),
    ),
    "voltage-above-part": (
        _("{value} can reach {where}; it stands {limit}. It would be destroyed."),
        _("Feed it through a converter, or from another network."),
    ),
    "highest-voltage-unknown": (
        _("{value} can reach {where}; the highest voltage it stands is not entered."),
        _("Enter it from the part maker's sheet."),
    ),
    # -- what the part's maker says
    "fuse-above-part": (
        _("{where}: up to {value} of fuse feed it; its maker asks for {limit}."),
        _("Fit the fuse its maker asks for. Never a larger one."),
    ),
    "fuse-below-part": (
        _("{where}: a fuse of {value} feeds it; its maker asks for {limit}."),
        _("Fit the maker's fuse with cable for it, or accept that this one may blow."),
    ),
    "main-fuse-below-sum": (
        _("Run {where}: its fuse of {value} is less than the {limit} asked for behind it."),
        _("Fit a larger fuse with cable for it, or state how much of it flows at once."),
    ),
    "bank-fuse-below-note": (
        _("Run {where}: a bass note can draw {limit} from the bank; its fuse is {value}."),
        _("Fuse and cable a bank as a battery: for the full current of the amplifiers."),
    ),
    # -- ends and amplifiers
    "terminal-unsuited-to-metal": (
        _("{where}: the terminal is not made for {value}."),
        _("Take a terminal its maker rates for this metal. Otherwise the joint gets hot."),
    ),
    "terminal-metal-unknown": (
        _("{where}: nobody entered whether the terminal is made for {value}."),
        _("Look it up in the terminal maker's sheet and enter it."),
    ),
    "load-below-amplifier-lowest": (
        _("{where}: the speakers load the amplifier with {value}; its maker allows {limit}."),
        _("Connect them otherwise, or choose another amplifier or speaker."),
    ),
    "amplifier-lowest-unknown": (
        _("{where}: the lowest load the amplifier may drive is not entered."),
        _("Enter it from the part maker's sheet, bridged and not bridged."),
    ),
}
