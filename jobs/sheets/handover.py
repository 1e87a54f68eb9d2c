"""The hand-over: what the customer keeps in the glove box."""

from __future__ import annotations

from typing import Any

from jobs.design.job.stages import let_go, open_before_handover, release_of
from jobs.design.job.whole import JobDesign
from jobs.drawings.wiring import wiring_pictures
from jobs.models import Stage


def context(design: JobDesign) -> dict[str, Any]:
    """Gather the one picture the sheet begins with, and what the car goes with open."""
    as_set = {each.channel.pk: each.now for each in design.as_set if each.now is not None}
    release = release_of(Stage.HANDED_OVER, design)
    return {
        # As each was set, and as planned where nobody wrote that down.
        "set": [(row.channel, as_set.get(row.channel.pk)) for row in design.channels],
        "signal": wiring_pictures.signal(design),
        # The manager's word, and what of it is still so.
        "release": release,
        "let_go": let_go(open_before_handover(design), release),
    }
