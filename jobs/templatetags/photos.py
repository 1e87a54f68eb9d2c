"""What is marked on a photo, drawn over it."""

from django import template

from jobs.drawings.pencil.photo_marks import photo_marks

register = template.Library()
register.filter("photo_marks", photo_marks)
