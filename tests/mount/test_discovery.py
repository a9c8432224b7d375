"""Alpaca's own discovery, on loopback only."""

from __future__ import annotations

import json
import socket
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from ipaddress import IPv4Network

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from companion.mount import FoundMount, mount_address
from companion.mount.alpaca.discover import discover
from tests.mount.altaz_server import altaz_server
from tests.mount.lines import free_port

LOOPBACK = [IPv4Network("127.0.0.0/8")]


@contextmanager
def _answering(answers: list[bytes]) -> Iterator[int]:
    """Answer the standard's question with these datagrams; yield the port."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as listening:
        listening.bind(("", 0))
        listening.settimeout(5.0)

        def answer() -> None:
            while True:
                try:
                    question, asker = listening.recvfrom(100)
                except OSError:
                    return
                # API reference, "Discovery": the first 15 letters name the protocol, the 16th its version.
                if question == b"alpacadiscovery1":
                    for one in answers:
                        listening.sendto(one, asker)

        thread = threading.Thread(target=answer, daemon=True)
        thread.start()
        yield listening.getsockname()[1]


def test_a_mount_next_to_us_is_found() -> None:
    """The server answers the question, its management says what stands behind it; other devices are none of ours."""
    with altaz_server() as server, _answering([json.dumps({"AlpacaPort": server.port}).encode()]) as port:
        server.devices.append({"DeviceName": "A camera", "DeviceType": "Camera", "DeviceNumber": 0, "UniqueID": "x"})
        found = discover(LOOPBACK, port, 0.8)
    assert found == (FoundMount(mount_address(server.address), "Invented Alt-Azimuth"),)


def test_nobody_answers() -> None:
    """No answer is no mount, after the time given."""
    assert discover(LOOPBACK, free_port(), 0.2) == ()


def test_an_answer_from_outside_the_networks_asked_is_passed_over() -> None:
    """Only what lies on a network we asked may be contacted."""
    with altaz_server() as server, _answering([json.dumps({"AlpacaPort": server.port}).encode()]) as port:
        elsewhere = IPv4Network("127.0.1.0/24")
        assert discover([elsewhere], port, 0.3) == ()
        assert not server.requests


@pytest.mark.parametrize(
    "answer", [b"", b"\xff\xfe", b"[]", b"{}", b'{"AlpacaPort": "80"}', b'{"AlpacaPort": 0}', b'{"AlpacaPort": 1e9}', b"[" * 900]
)
def test_nonsense_answers_are_passed_over(answer: bytes) -> None:
    """One server that answers nonsense keeps no other from being found."""
    with altaz_server() as server, _answering([answer, json.dumps({"AlpacaPort": server.port}).encode()]) as port:
        assert len(discover(LOOPBACK, port, 0.8)) == 1


_JSON = st.recursive(
    st.none() | st.booleans() | st.floats() | st.integers() | st.text(max_size=9) | st.just("Telescope"),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from(["DeviceType", "DeviceNumber", "DeviceName"]), inner),
)


@settings(max_examples=15, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(_JSON)
def test_nonsense_behind_a_server_is_passed_over(devices: object) -> None:
    """Whatever the management says, the search ends in a list of mounts."""
    with altaz_server() as server, _answering([json.dumps({"AlpacaPort": server.port}).encode()]) as port:
        server.devices = devices
        for found in discover(LOOPBACK, port, 0.1):
            assert found.address.port == server.port
