"""The project's finding marks in templates: one set of drawings for page, diagram and sheet."""

from django import template
from django.utils.safestring import SafeString

from jobs.drawings.pencil import marks

register = template.Library()


@register.filter
def mark(kind: str) -> SafeString:
    """Draw a mark: `{{ "stop"|mark }}`; its word always stands beside it."""
    return marks.mark(kind)
