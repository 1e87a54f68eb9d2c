"""What a machine can judge of PDF/UA-1 (ISO 14289-1): some of its rules, by a library of others."""

from __future__ import annotations

import tempfile

import pytest

pdfua = pytest.importorskip("pdfua")
# It fails at how text of several spaces is written (an array) and says so: judged by nobody.
UNJUDGED = {"UA-14-001"}


def errors_in(pdf: bytes) -> list[str]:
    """Return what breaks a rule; a rule that could not be tried counts unless it is known."""
    with tempfile.NamedTemporaryFile(suffix=".pdf") as file:
        file.write(pdf)
        file.flush()
        report = pdfua.validate(file.name)
    broken = [
        f"{finding.rule_id} {finding.message}"
        for finding in report.findings
        if finding.severity == pdfua.Severity.ERROR
    ]
    untried = [outcome.rule_id for outcome in report.skipped if outcome.rule_id not in UNJUDGED]
    return [*broken, *untried]
