"""A channel as it was measured and as it would be with the proposed bands."""

from __future__ import annotations

from django.utils.translation import gettext as _

from jobs.design.setup.proposal import Proposal
from jobs.drawings.pencil.chart_picture import ChartPicture
from jobs.drawings.setup.measured_pictures import levels_chart


def proposal_chart(proposal: Proposal) -> ChartPicture | None:
    """Draw the average of the places, before and with the bands, and what is wanted."""
    equalised, f = proposal.equalised, proposal.frequency
    if equalised is None or f is None or proposal.measured is None or proposal.wanted is None:
        return None
    name, measured = proposal.channel.name, _("measured")
    curves = [
        (measured, f, proposal.measured),
        (_("with the bands"), f, proposal.measured + equalised.change),
        (_("wanted"), f, proposal.wanted),
    ]
    words = _("%(channel)s measured, with the proposed bands, and as wanted.") % {"channel": name}
    return levels_chart(f"proposal-{proposal.channel.pk}", name, words, curves, ghosts={measured})
