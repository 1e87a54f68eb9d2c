"""Filters and marks for templates: quantities, words, the marks of findings."""
