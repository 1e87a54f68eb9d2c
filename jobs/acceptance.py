"""The yes to an offer: once, by somebody with a name, of what is still open.

Two who say yes at once hold the job one after the other: the first wins, the second is told.
"""

from __future__ import annotations

import json
import math
from itertools import pairwise

from django.utils import timezone
from django.utils.formats import date_format
from django.utils.translation import gettext as _

from jobs.design.agreement.agreed import Standing, standing
from jobs.design.job.stages import ORDER, may_enter
from jobs.design.job.whole import load, work_out
from jobs.locks import held
from jobs.models import Job, Offer, Stage, User

WIDTH, HEIGHT = 1000, 400  # of the box it is drawn in
MOST_STROKES, MOST_POINTS = 60, 4000
SHORTEST = 150.0  # of all strokes together: a dot is no signature


class RefusedError(Exception):
    """Why it was not taken, in words for whoever tried."""


def signature(text: str) -> list[list[int]]:
    """Read what was drawn; refuse what is no drawing of a hand."""
    try:
        strokes = json.loads(text or "[]")
    except (ValueError, RecursionError) as error:
        raise RefusedError(_("What was drawn did not arrive. Draw it once more.")) from error
    if not _is_drawing(strokes):
        raise RefusedError(_("What was drawn did not arrive. Draw it once more."))
    if sum(_length(stroke) for stroke in strokes) < SHORTEST:
        raise RefusedError(_("Draw your signature in the box."))
    return [list(stroke) for stroke in strokes]


def _is_drawing(strokes: object) -> bool:
    if not isinstance(strokes, list) or len(strokes) > MOST_STROKES:
        return False
    points = 0
    for stroke in strokes:
        if not isinstance(stroke, list) or len(stroke) % 2:
            return False
        points += len(stroke) // 2
        inside = (
            type(value) is int and 0 <= value <= (HEIGHT if n % 2 else WIDTH)
            for n, value in enumerate(stroke)
        )
        if not all(inside):
            return False
    return points <= MOST_POINTS


def _length(stroke: list[int]) -> float:
    points = list(zip(stroke[::2], stroke[1::2], strict=True))
    return sum(math.dist(*pair) for pair in pairwise(points))


def accept(
    offer: Offer,
    name: str,
    strokes: list[list[int]],
    *,
    photos: bool = False,
    recorded_by: User | None = None,
) -> Offer:
    """Take the yes; whoever sends the same once more is given what was taken."""
    with held(offer.job):
        fresh = Offer.objects.select_related("job", "sheet").get(pk=offer.pk)
        if fresh.is_accepted and (fresh.accepted_name, fresh.signature) == (name, strokes):
            return fresh
        if reason := why_not(fresh):
            raise RefusedError(reason)
        fresh.accepted_at, fresh.accepted_name = timezone.now(), name
        fresh.signature, fresh.recorded_by = strokes, recorded_by
        fresh.photos_wanted = photos
        fresh.save()
        _go_on(fresh.job)
        return fresh


def _go_on(job: Job) -> None:
    """A job that was agreed is in that stage, unless a gate before it is open still."""
    job.refresh_from_db()
    is_before = ORDER.index(Stage(job.stage)) < ORDER.index(Stage.AGREED)
    if is_before and may_enter(Stage.AGREED, work_out(load(job))):
        job.stage = Stage.AGREED
        job.save()


def why_not(offer: Offer) -> str:
    """Say why an offer cannot be agreed any more; empty where it can."""
    match standing(offer, list(Offer.objects.filter(job=offer.job_id))):
        case Standing.ACCEPTED:
            return _("It was agreed already, by %(name)s on %(at)s.") % {
                "name": offer.accepted_name,
                "at": _day(offer),
            }
        case Standing.WITHDRAWN:
            return _("The workshop has withdrawn this offer. Ask for what holds now.")
        case Standing.REPLACED:
            return _("A newer offer has taken the place of this one. Ask for its link.")
        case Standing.EXPIRED:
            return _("This offer has run out. Ask the workshop for a new one.")
    return ""


def _day(offer: Offer) -> str:
    assert offer.accepted_at is not None
    return date_format(timezone.localtime(offer.accepted_at), "SHORT_DATETIME_FORMAT")
