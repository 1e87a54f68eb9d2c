"""A server that speaks S3, on this machine, with an empty bucket."""

from __future__ import annotations

import logging
from collections.abc import Iterator
from contextlib import contextmanager

import pytest

NAME = "invented"  # of the bucket, and both keys to it


@contextmanager
def running() -> Iterator[str]:
    """Start one; gives its address."""
    boto3 = pytest.importorskip("boto3")
    moto = pytest.importorskip("moto.server")
    server = moto.ThreadedMotoServer(ip_address="127.0.0.1", port=0, verbose=False)
    logging.getLogger("werkzeug").setLevel(logging.ERROR)
    server.start()
    host, port = server.get_host_and_port()
    keys = {"aws_access_key_id": NAME, "aws_secret_access_key": NAME, "region_name": "us-east-1"}
    there = f"http://{host}:{port}"
    bucket = boto3.resource("s3", endpoint_url=there, **keys).Bucket(NAME)
    bucket.create()
    bucket.objects.all().delete()  # servers of one process share what they keep
    try:
        yield there
    finally:
        server.stop()
