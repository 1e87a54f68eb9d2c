"""The stages of a job: what is missing before each, and who let it go on all the same."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from jobs.design.job.gates import Judged, Open
from jobs.design.job.handover_gate import HAND_OVER
from jobs.design.job.planning_gates import PLANNING
from jobs.models import Stage, StageRelease

# Every gate there is, in the order they are gone through. A new one is one entry.
GATES = (*PLANNING, *HAND_OVER)
ORDER = tuple(Stage)
# Steps of the strip whose gates stand on another page.
_STEP_OF = {"gate": "bay"}


@dataclass(frozen=True, kw_only=True)
class State:
    """How one step of the strip stands."""

    state: str  # "done", "missing", "look" or "stop"
    says: str


def next_stage(stage: str) -> Stage | None:
    """Return the stage after this one; None after the last."""
    following = ORDER[ORDER.index(Stage(stage)) + 1 :]
    return following[0] if following else None


def still_open(judged: Judged) -> list[Open]:
    """Say what every gate of a job lacks."""
    return [Open(gate=gate, missing=missing) for gate in GATES for missing in gate.missing(judged)]


def open_before(stage: Stage, judged: Judged) -> list[Open]:
    """Say what is missing before a stage; an empty list opens its gate.

    Asked are the gates between where the job stands and there; before a car leaves, every one.
    """
    now, to = ORDER.index(Stage(judged.records.job.stage)), ORDER.index(stage)
    if stage == Stage.HANDED_OVER and now < to:
        return open_before_handover(judged)
    return [
        item
        for item in judged.still_open
        if item.gate.before is None or now < ORDER.index(item.gate.before) <= to
    ]


def open_before_handover(judged: Judged) -> list[Open]:
    """Say what is open before the car goes, whether or not it has gone."""
    return [item for item in judged.still_open if item.gate.before != Stage.AFTERCARE]


def release_of(stage: Stage, judged: Judged) -> StageRelease | None:
    """Return the manager's last word about a stage."""
    words = [row for row in judged.records.releases if row.stage == stage]
    return words[-1] if words else None


def let_go(still: Sequence[Open], release: StageRelease | None) -> list[Open]:
    """What of it the manager's last word lets the job go on with."""
    covered = set(release.left_open["keys"]) if release else set()
    return [item for item in still if covered.issuperset(item.keys)]


def may_enter(stage: Stage, judged: Judged) -> bool:
    """Whether nothing is missing, or the manager said why the job goes on all the same.

    What came to be open after that word was given is not covered by it.
    """
    still = open_before(stage, judged)
    return let_go(still, release_of(stage, judged)) == still


def may_hand_over(judged: Judged) -> bool:
    """Whether the car may go, or might go again."""
    still = open_before_handover(judged)
    return let_go(still, release_of(Stage.HANDED_OVER, judged)) == still


def as_left(still: Sequence[Open]) -> dict[str, list[str]]:
    """Return what is open as a release keeps it: by keys, and in words for people."""
    return {
        "keys": [key for item in still for key in item.keys],
        "says": [item.says for item in still],
    }


def state_of(step: str, judged: Judged, still: Sequence[Open]) -> State:
    """Say how one step of the strip stands; complete is what no gate of it asks for any more."""
    mine = [row for row in judged.findings if step in (row.section, "findings") and row.is_open]
    stops = sum(row.severity == "stop" for row in mine)
    if stops:
        return State(state="stop", says=ngettext("%(n)d stop", "%(n)d stops", stops) % {"n": stops})
    asked = [item for item in still if _STEP_OF.get(item.page, item.page) == step]
    if step != "findings" and asked:
        return State(state="missing", says=asked[0].word)
    if step == "setup" and (unset := _unset(judged)):
        return State(state="missing", says=unset)
    if _is_empty(step, judged):
        return State(state="missing", says=_("nothing yet"))
    if mine:
        looks = len(mine)
        words = ngettext("%(n)d to decide", "%(n)d to decide", looks)
        return State(state="look", says=words % {"n": looks})
    return State(state="done", says=_("complete"))


def _unset(judged: Judged) -> str:
    """Say how many amplified channels were written down as they were set; nothing where all are."""
    records = judged.records
    written = {row.channel_id for row in records.channel_settings}
    ours = [channel for channel in records.channels if channel.amplifier_id]
    done = sum(channel.pk in written for channel in ours)
    if not done:
        return _("nothing set yet")
    return "" if done == len(ours) else _("%(n)d of %(all)d") % {"n": done, "all": len(ours)}


def _is_empty(step: str, judged: Judged) -> bool:
    records = judged.records
    lists = {
        "channels": records.channels,
        "boxes": [*records.boxes, *records.rings, *records.trim_panels],
        "power": records.runs,
    }
    return step in lists and not lists[step]
