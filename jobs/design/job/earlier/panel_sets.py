"""The panels a car of a kind of body usually has, and what earlier jobs of the model taught.

The sets are the workshop's own list of what comes off, in the order it usually does, and of what
is minded when it goes back on; common practice, no source. Whether an airbag is behind a panel is
never taken over: it is looked up.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from django.db.models import Count, Sum
from django.utils.functional import Promise
from django.utils.translation import gettext_lazy

from jobs.design.records.sides import swap_sides
from jobs.models import BayNote, Fixing, Job, Panel, PanelStep, Side

FRONT = ("sill-front", "foot-driver", "dash-below", "glove-box", "door-front")
REAR = ("sill-rear", "door-rear", "bench", "bench-back")
BOOT = ("boot-floor", "boot-sill", "boot-side")

BODIES: dict[str, tuple[Promise, tuple[str, ...]]] = {
    "hatchback": (gettext_lazy("hatchback"), (*FRONT, *REAR, *BOOT, "shelf", "tailgate")),
    "saloon": (gettext_lazy("saloon"), (*FRONT, *REAR, "rear-shelf", *BOOT, "boot-lid")),
    "estate": (gettext_lazy("estate"), (*FRONT, *REAR, *BOOT, "pillar-rear", "tailgate")),
    "suv": (
        gettext_lazy("sport utility"),
        (*FRONT, *REAR, "centre-console", *BOOT, "pillar-rear", "tailgate"),
    ),
    "coupe": (gettext_lazy("coupé"), (*FRONT, "side-rear", "bench", "bench-back", *BOOT)),
    "convertible": (
        gettext_lazy("convertible"),
        (*FRONT, "side-rear", "bench", "bench-back", "hood-box", *BOOT),
    ),
    "van": (gettext_lazy("van"), (*FRONT, "seat-base", "bulkhead", "load-side", "load-floor")),
    "pick-up": (
        gettext_lazy("pick-up"),
        (*FRONT, "door-rear", "bench", "bench-back", "rear-wall"),
    ),
    "motorhome": (
        gettext_lazy("motorhome"),
        (*FRONT, "seat-base", "wardrobe", "bench-box", "cupboards", "floor-hatch"),
    ),
}
# What each is called; one that there is on both sides has its two names below.
NAMES: dict[str, Promise] = {
    "foot-driver": gettext_lazy("Trim in the driver's footwell, %(side)s"),
    "dash-below": gettext_lazy("Cover below the steering wheel, %(side)s"),
    "glove-box": gettext_lazy("Glove box, %(other)s"),
    "bench": gettext_lazy("Rear bench, seat"),
    "bench-back": gettext_lazy("Rear bench, back"),
    "boot-floor": gettext_lazy("Boot floor"),
    "boot-sill": gettext_lazy("Trim over the boot's edge"),
    "shelf": gettext_lazy("Rear shelf, removable"),
    "rear-shelf": gettext_lazy("Rear shelf under the window"),
    "tailgate": gettext_lazy("Trim of the tailgate"),
    "boot-lid": gettext_lazy("Trim of the boot lid"),
    "centre-console": gettext_lazy("Centre console"),
    "hood-box": gettext_lazy("Cover of the folded hood"),
    "bulkhead": gettext_lazy("Bulkhead to the load space"),
    "load-floor": gettext_lazy("Floor of the load space"),
    "rear-wall": gettext_lazy("Trim of the cab's rear wall"),
    "wardrobe": gettext_lazy("Wardrobe, bottom"),
    "bench-box": gettext_lazy("Box of the living-room bench"),
    "cupboards": gettext_lazy("Overhead cupboards"),
    "floor-hatch": gettext_lazy("Hatch in the floor"),
}
BOTH_SIDES: dict[str, Promise] = {
    "sill-front": gettext_lazy("Sill trim, front %(side)s"),
    "sill-rear": gettext_lazy("Sill trim, rear %(side)s"),
    "door-front": gettext_lazy("Front door card, %(side)s"),
    "door-rear": gettext_lazy("Rear door card, %(side)s"),
    "side-rear": gettext_lazy("Rear side trim, %(side)s"),
    "boot-side": gettext_lazy("Boot side trim, %(side)s"),
    "pillar-rear": gettext_lazy("Trim of the rear pillar, %(side)s"),
    "seat-base": gettext_lazy("Base of the front seat, %(side)s"),
    "load-side": gettext_lazy("Side lining of the load space, %(side)s"),
}
_BELTS = gettext_lazy("Belts through their slots, not twisted; buckles within reach.")
_CLIPS = gettext_lazy("Whole clips only, each over its hole; no cable under an edge or a clip.")
_LID = gettext_lazy("Plugs pushed home, cables clear of the hinges: close it once, slowly.")
_PEDALS = gettext_lazy("Nothing hangs down to the pedals: press each of them right through.")
# What is minded when one goes back on; what each car asks besides is added to it.
REFIT: dict[str, tuple[Promise, ...]] = {
    "sill-front": (_CLIPS, gettext_lazy("The seal of the door lies over its edge all along.")),
    "sill-rear": (_CLIPS, gettext_lazy("The seal of the door lies over its edge all along.")),
    "foot-driver": (_CLIPS, _PEDALS),
    "dash-below": (_PEDALS,),
    "glove-box": (gettext_lazy("It opens and closes freely; its lamp is plugged in."),),
    "door-front": (
        gettext_lazy("Water film back on, sealed all round."),
        gettext_lazy("Handle and lock hooked in, every plug pushed home."),
        gettext_lazy("Window, lock and handle tried before it is pressed on."),
        _CLIPS,
    ),
    "bench": (gettext_lazy("No cable under its frame; it is locked in: pull at it."), _BELTS),
    "bench-back": (gettext_lazy("Caught on both sides: pull at it."), _BELTS),
    "boot-floor": (
        gettext_lazy("Spare wheel, jack and tools are back and held; the floor lies flat."),
    ),
    "boot-sill": (_CLIPS, gettext_lazy("The catch is free: close the lid once, slowly.")),
    "boot-side": (
        gettext_lazy("The vent to the outside is not covered; lamp and socket are plugged in."),
        _CLIPS,
    ),
    "shelf": (gettext_lazy("Its cords are hooked in and lift it freely."),),
    "rear-shelf": (_BELTS, gettext_lazy("The brake lamp in the window is plugged in and lights.")),
    "tailgate": (_LID, _CLIPS),
    "boot-lid": (_LID, _CLIPS),
    "centre-console": (gettext_lazy("Gear lever and handbrake move freely all the way."),),
    "pillar-rear": (
        gettext_lazy("Fixings that the vehicle maker wants new are new."),
        gettext_lazy("The belt runs freely; nothing of ours lies in front of an airbag."),
    ),
    "side-rear": (_BELTS, _CLIPS),
    "hood-box": (gettext_lazy("The hood runs once each way and takes no cable along."),),
    "seat-base": (
        gettext_lazy("Plugs under the seat pushed home with the ignition off."),
        gettext_lazy("Bolts tightened as the vehicle maker says; the seat runs all the way."),
    ),
    "bulkhead": (gettext_lazy("Bolts tightened as the vehicle maker says."),),
    "load-side": (gettext_lazy("Lashing points are bolted as the vehicle maker says."), _CLIPS),
    "load-floor": (gettext_lazy("Lashing points are bolted as the vehicle maker says."),),
    "rear-wall": (_BELTS, _CLIPS),
    "wardrobe": (gettext_lazy("Its bottom is screwed down; nothing rests on a cable or a pipe."),),
    "bench-box": (gettext_lazy("Nothing rests on a cable or a pipe; what can slide is held."),),
    "cupboards": (gettext_lazy("The doors catch: pull at each of them."),),
    "floor-hatch": (gettext_lazy("It lies flush, its seal whole all round."),),
}
REFIT["door-rear"] = REFIT["door-front"]
MOST_EARLIER = 5  # jobs of a model that are offered, the newest first
# Single panels on the side of the driver, and on the other; what each camper has elsewhere.
_ACROSS: dict[str, str] = {Side.LEFT: Side.RIGHT, Side.RIGHT: Side.LEFT}
DRIVERS, OTHERS = {"foot-driver", "dash-below"}, {"glove-box"}
ANYWHERE = {"wardrobe", "bench-box", "cupboards", "floor-hatch"}


class UsualPanel(NamedTuple):
    """A panel as a set knows it."""

    name: str
    side: str
    refit: tuple[Promise, ...]


def usual_panels(body: str, driver_side: str) -> Iterator[UsualPanel]:
    """Yield each panel of a body, the driver's side first."""
    mine = Side(driver_side)
    other = Side.RIGHT if mine == Side.LEFT else Side.LEFT
    for key in BODIES[body][1]:
        if key in BOTH_SIDES:
            for side in (mine, other):
                name = str(BOTH_SIDES[key]) % {"side": side.label}
                yield UsualPanel(name, side, REFIT[key])
        else:
            name = str(NAMES[key]) % {"side": mine.label, "other": other.label}
            yield UsualPanel(name, _side_of(key, mine, other), REFIT[key])


def _side_of(key: str, mine: Side, other: Side) -> str:
    if key in ANYWHERE:
        return ""
    if key in DRIVERS:
        return mine
    return other if key in OTHERS else Side.MIDDLE


def add_usual(job: Job, body: str) -> int:
    """Add the panels of a body that the job does not have yet, with nothing said behind them."""
    usual = list(usual_panels(body, job.vehicle.driver_side))
    refit = {row.name: row.refit for row in usual}
    added = _add(job, [Panel(name=row.name, side=row.side) for row in usual])
    for _source, panel in added:
        for position, text in enumerate(refit[panel.name], start=1):
            PanelStep(
                job=job,
                panel=panel,
                phase=PanelStep.Phase.REFIT,
                position=position,
                text=str(text),
            ).save()
    return len(added)


def _add(job: Job, sources: Iterable[Panel], *, swap: bool = False) -> list[tuple[Panel, Panel]]:
    """Add a panel for each of these whose name the job does not have yet; pair them."""
    have = list(job.panels.all())
    names = {panel.name.casefold() for panel in have}
    position = max((panel.position for panel in have), default=0)
    added = []
    for source in sources:
        panel = Panel(
            job=job, position=min(position + 1, 999), name=source.name, side=source.side,
            removal=source.removal, fixings=source.fixings, tools=source.tools,
            learnt_from_id=source.job_id,
        )  # fmt: skip
        if swap:
            swap_sides(panel, "name", "removal", "fixings", "tools")
            panel.side = _ACROSS.get(source.side, source.side)
        if panel.name.casefold() not in names:
            panel.save()
            position += 1
            added.append((source, panel))
    return added


def earlier_jobs(job: Job) -> Sequence[Job]:
    """Return earlier jobs of this model whose panels somebody listed, the newest first."""
    car = job.vehicle
    jobs = Job.objects.filter(vehicle__maker__iexact=car.maker, vehicle__model__iexact=car.model)
    listed = jobs.exclude(pk=job.pk).annotate(panel_count=Count("panels")).filter(panel_count__gt=0)
    return list(listed.select_related("vehicle", "consultant").order_by("-number")[:MOST_EARLIER])


def broken_clips(earlier: Job) -> dict[int, int]:
    """How many of each fixing of an earlier job broke, as far as somebody noted it."""
    clips = BayNote.objects.filter(job=earlier, kind=BayNote.Kind.CLIP, fixing__isnull=False)
    return {row["fixing"]: row["n"] for row in clips.values("fixing").annotate(n=Sum("pieces"))}


def take_over(job: Job, earlier: Job, only: int | None = None, *, swap: bool = False) -> int:
    """Take over how the panels of an earlier job came off, or how one did: way, fixings, steps.

    Of what can hurt nothing is taken over, and no step is done: both are this car's own. In a car
    driven from the other side the driver's panels are those that were the passenger's: left and
    right are swapped where somebody asks for it.
    """
    panels = earlier.panels.all()
    added = _add(job, panels if only is None else panels.filter(pk=only), swap=swap)
    broken = broken_clips(earlier)
    for source, panel in added:
        for row in source.fastenings.all():
            fixing = Fixing(
                job=job, panel=panel, name=row.name, part_number=row.part_number,
                quantity=row.quantity, place=row.place, breaks=row.breaks or row.pk in broken,
                spares=row.spares if row.pk not in broken else max(row.spares or 0, broken[row.pk]),
            )  # fmt: skip
            if swap:
                swap_sides(fixing, "place")
            fixing.save()
        for step in source.steps.all():
            new_step = PanelStep(
                job=job, panel=panel, phase=step.phase, position=step.position, text=step.text,
                wants_photo=step.wants_photo,
            )  # fmt: skip
            if swap:
                swap_sides(new_step, "text")
            new_step.save()
    return len(added)
