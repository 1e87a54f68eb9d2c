"""Template filter for the words that come from a calculator, for page and sheet alike."""

from django import template

from jobs.design.wording import term

register = template.Library()
register.filter("term", term)
