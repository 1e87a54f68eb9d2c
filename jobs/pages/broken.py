"""What is answered when something broke: by us, in a store that is gone, or for want of room."""

from __future__ import annotations

import sys

from django.db import InterfaceError, OperationalError
from django.http import HttpRequest, HttpResponse
from django.template.loader import render_to_string
from django.views.decorators.csrf import requires_csrf_token
from django.views.defaults import server_error

from jobs.room import is_out_of_room

# Seconds; a database that is started anew takes some of them.
TRY_AGAIN = 20


@requires_csrf_token
def broken(request: HttpRequest) -> HttpResponse:
    """Say it calmly, in the reader's language; called while the error is being handled."""
    error = sys.exc_info()[1]
    if is_out_of_room(error):
        # RFC 4918, 11.5: there is no room to keep what was sent.
        return HttpResponse(render_to_string("507.html"), status=507)
    # The bucket's own errors are known by where they come from: without a bucket nobody loads them.
    of_the_bucket = type(error).__module__.startswith("botocore.")
    if not of_the_bucket and not isinstance(error, OperationalError | InterfaceError):
        return server_error(request)
    # Only what was asked for by its address can be asked for again by a link.
    again = request.get_full_path() if request.method == "GET" else ""
    return HttpResponse(
        render_to_string("503.html", {"again": again, "bucket": of_the_bucket}),
        status=503,
        headers={"Retry-After": str(TRY_AGAIN)},
    )
