"""A job as one file: written, looked over and taken in by another installation.

What goes into it and what stays behind is said in `contents.py`, field by field and with its
reason; how it reads in `schema.py`. History stays: it names whoever touched a field years ago, and
says nothing of the car. What was decided, measured, ticked, signed and built otherwise are records
of their own and go along with who and when.
"""
