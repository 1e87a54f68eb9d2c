"""The folded list of removed rows at the foot of a page of a job."""

from typing import Any

from django import template

from jobs import access
from jobs.pages.history.removed import removed_parts as parts_of
from jobs.pages.history.removed import removed_rows as rows_of

register = template.Library()


@register.inclusion_tag("parts/removed.html", takes_context=True)
def removed_rows(context: dict[str, Any]) -> dict[str, Any]:
    """List what was removed from the lists of this page: `{% removed_rows %}`.

    A page beside the strip says itself which it is, as `section`, and where it lists rows of
    several jobs, of which (`of_jobs`).
    """
    section = context.get("section") or next(
        (step.slug for step in context["steps"] if step.current), ""
    )
    user = access.signed_in(context["request"])
    return {
        "removed": rows_of(context.get("of_jobs") or [context["job"]], section, user),
        "csrf_token": context.get("csrf_token"),
    }


@register.inclusion_tag("parts/removed.html", takes_context=True)
def removed_parts(context: dict[str, Any]) -> dict[str, Any]:
    """List what was removed from the catalogue: `{% removed_parts %}`."""
    user = access.signed_in(context["request"])
    return {
        "removed": parts_of(context["kind"], user),
        "csrf_token": context.get("csrf_token"),
    }
