"""What Django itself finds wrong with the settings of a real installation."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]


def test_nothing_is_found_under_tls(tmp_path):
    """`check --deploy` has no warning but the two that settings.py names with their reason."""
    environment = {**os.environ, "UNDERTRIM_VAR": str(tmp_path), "UNDERTRIM_TLS": "1"}
    done = subprocess.run(
        [sys.executable, "manage.py", "check", "--deploy", "--fail-level", "INFO"],
        cwd=ROOT,
        env=environment,
        capture_output=True,
        text=True,
    )
    assert done.returncode == 0, done.stderr
    assert "2 silenced" in done.stdout
