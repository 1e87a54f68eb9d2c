"""The counts the board shows, kept with the job so that the board computes nothing."""

from __future__ import annotations

from jobs.design.job.whole import load, work_out
from jobs.models import Job


def refresh(job: Job) -> None:
    """Count a job's open findings anew; called after every save."""
    fresh = Job.objects.select_related("vehicle__customer", "consultant").get(pk=job.pk)
    design = work_out(load(fresh))
    Job.objects.filter(pk=job.pk).update(
        open_stops=len(design.open_stops), open_looks=len(design.open_looks)
    )
