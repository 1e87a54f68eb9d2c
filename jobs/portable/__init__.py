"""A job as one file: written, looked over and taken in by another installation.

What goes into it and what stays behind is said in `staying.py`, field by field and with its reason;
how it reads in `schema.py`. The history of the rows goes along (`past.py`): it tells what came
after a hand-over. Of who touched a field only those are named whom the job names besides.
"""
