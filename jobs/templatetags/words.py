"""Template filters for the words that come from a calculator, for page and sheet alike."""

from django import template

from jobs.design.wording import term, terms
from jobs.design.wording.joining import fastener_words

register = template.Library()
register.filter("term", term)
register.filter("terms", terms)
register.filter("fastener", fastener_words)
