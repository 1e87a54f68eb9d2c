"""Findings in templates: alike ones on one line, and the way to where one is cured."""

from collections.abc import Iterable

from django import template
from django.urls import reverse

from jobs.design.job.alike import Alike, cured_at
from jobs.design.job.alike import alike as put_together
from jobs.design.records.decisions import OF_THE_CAR
from jobs.design.records.findings import Finding
from jobs.models import Job

register = template.Library()


@register.filter
def alike(findings: Iterable[Finding]) -> list[Alike]:
    """One line for each code: `{% for line in findings|alike %}`."""
    return put_together(findings)


@register.filter
def is_of_the_car(finding: Finding) -> bool:
    """Whether it is a caution of the car, which somebody ticks once."""
    return finding.code in OF_THE_CAR


@register.simple_tag
def cure_url(job: Job, finding: Finding) -> str:
    """Where a finding is cured: `{% cure_url job finding as there %}`; nothing off any page."""
    if not finding.section:
        return ""
    place = cured_at(finding)
    return reverse("cure", args=[job.code, finding.section, finding.code, place.kind, place.key])
