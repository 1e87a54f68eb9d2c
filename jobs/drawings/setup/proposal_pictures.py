"""A channel as it was measured and as it would be with the proposed bands."""

from __future__ import annotations

import numpy as np
from django.utils.translation import gettext as _

from jobs.design.setup.proposal import Proposal
from jobs.drawings.pencil.axis import Axis
from jobs.drawings.pencil.chart import Chart, Series
from jobs.drawings.pencil.chart_picture import ChartPicture, picture
from jobs.drawings.setup.measured_pictures import SHOWN, TABLE_AT


def proposal_chart(proposal: Proposal) -> ChartPicture | None:
    """Draw the average of the places, before and with the bands, and what is wanted."""
    equalised, f = proposal.equalised, proposal.frequency
    if equalised is None or f is None or proposal.measured is None or proposal.wanted is None:
        return None
    before, after = proposal.measured, proposal.measured + equalised.change
    top = float(5 * np.ceil((max(before.max(), after.max()) + 2) / 5))
    curves = [
        (_("measured"), before, True),
        (_("with the bands"), after, False),
        (_("wanted"), proposal.wanted, False),
    ]
    return picture(
        Chart(
            key=f"proposal-{proposal.channel.pk}",
            title=proposal.channel.name,
            description=_("%(channel)s measured, with the proposed bands, and as wanted.")
            % {"channel": proposal.channel.name},
            x=Axis(label=_("frequency"), unit="Hz", low=20, high=16_000, log=True),
            y=Axis(label=_("level"), unit="dB", low=top - SHOWN, high=top),
            series=[
                Series(
                    name=name,
                    x=f.tolist(),
                    y=np.maximum(level, top - SHOWN - 20.0).tolist(),
                    ghost=ghost,
                )
                for name, level, ghost in curves
            ],
        ),
        TABLE_AT,
    )
