"""The hand-over: what the customer keeps in the glove box."""

from __future__ import annotations

from typing import Any

from jobs.design.job.handover_gate import let_go, open_before_handover
from jobs.design.job.whole import JobDesign
from jobs.drawings.wiring import wiring_pictures


def context(design: JobDesign) -> dict[str, Any]:
    """Gather the one picture the sheet begins with, and what the car goes with open."""
    releases = design.records.releases
    as_set = {each.channel.pk: each.now for each in design.as_set if each.now is not None}
    return {
        # As each was set, and as planned where nobody wrote that down.
        "set": [(row.channel, as_set.get(row.channel.pk)) for row in design.channels],
        "signal": wiring_pictures.signal(design),
        # The manager's word, and what of it is still so.
        "release": releases[-1] if releases else None,
        "let_go": let_go(open_before_handover(design), releases),
    }
