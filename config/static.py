"""Style, script and fonts under names that carry their hash."""

from __future__ import annotations

from whitenoise.storage import CompressedManifestStaticFilesStorage


class HashedFiles(CompressedManifestStaticFilesStorage):  # type: ignore[misc]  # it has no types
    """Names another module by its hash too, where a script imports it."""

    support_js_module_import_aggregation = True
