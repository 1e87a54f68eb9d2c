"""Tests of options of a job, held side by side."""
