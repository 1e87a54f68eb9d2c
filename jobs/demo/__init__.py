"""A wholly invented workshop with three jobs at different stages, to look around in."""

from __future__ import annotations

from django.db import transaction

from jobs.demo.aftercare import load_aftercare
from jobs.demo.agreement import load_agreement, load_options, load_words
from jobs.demo.calendar import load_calendar
from jobs.demo.camper import load_camper
from jobs.demo.catalogue import load_catalogue
from jobs.demo.estate import load_estate
from jobs.demo.intake import load_intake
from jobs.demo.people import load_people
from jobs.demo.pickup import load_pickup
from jobs.demo.pictures import add_pictures
from jobs.demo.prices import load_part_list, load_price_lines, load_prices
from jobs.demo.wood import load_wood
from jobs.design.job import board_counts
from jobs.design.job.whole import load, work_out
from jobs.design.records.decisions import take
from jobs.models import Job, User

# Looks somebody has settled: (number of the job, code, who, the reason that is printed).
ACCEPTED = (
    (
        3,
        "port-noisy",
        "designer",
        "Only at full level below 40 Hz; the customer heard a sample and agreed.",
    ),
    (
        1,
        "start-stop-caution",
        "consultant",
        "Half an hour of reserve is asked for and reached; the customer knows.",
    ),
    (
        1,
        "smart-charging-caution",
        "designer",
        "All grounds go to the body side of the sensor; the post stays as it was.",
    ),
)


@transaction.atomic
def load_demo() -> None:
    """Make everything, once; an installation that has jobs is left alone."""
    people = load_people()
    parts = load_catalogue()
    add_pictures()
    load_prices(parts)
    jobs = [make(parts, people) for make in (load_estate, load_camper, load_pickup)]
    load_wood(jobs[0], parts)
    load_price_lines(jobs[0])
    load_agreement(jobs[0], jobs[2], people)
    load_words(jobs[0], jobs[2], people["consultant"])
    load_intake(jobs[0], people)
    load_calendar(jobs, people)
    load_part_list(people["manager"])
    for number, code, who, reason in ACCEPTED:
        _accept(jobs[number - 1], code, people[who], reason)
    load_options(jobs[2])  # last: an option is the design as it stands, decisions included
    load_aftercare(jobs[0], people)
    for job in jobs:
        board_counts.refresh(job)


def _accept(job: Job, code: str, by: User, reason: str) -> None:
    """Let somebody accept one look, with a reason that is printed."""
    for finding in work_out(load(job)).findings:
        if finding.code == code:
            take(job, finding, by, reason)
