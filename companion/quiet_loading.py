"""Libraries loaded without their looking at the network."""

from __future__ import annotations

import socket
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def quiet_loading() -> Iterator[None]:
    """Have what is imported meanwhile open no socket: urllib3, which some bring along, opens one to see whether it could speak IPv6."""
    speaks_ipv6, socket.has_ipv6 = socket.has_ipv6, False
    try:
        yield
    finally:
        socket.has_ipv6 = speaks_ipv6
