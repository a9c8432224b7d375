"""Finds Alpaca mounts next to us, by the standard's own discovery: a question to everyone on the local network, and nobody else.

https://ascom-standards.org/api/, "Discovery": the datagram ``alpacadiscovery1`` to UDP port 32227, answered by ``{"AlpacaPort": n}``.
"""

from __future__ import annotations

import json
import socket
import time
from collections.abc import Iterator, Sequence
from ipaddress import AddressValueError, IPv4Address, IPv4Network
from typing import Any

import ifaddr

from companion.mount.address import FoundMount, MountAddress
from companion.mount.alpaca.connection import text
from companion.mount.alpaca.plain_http import NoAnswer, NothingSent, PlainHttp

PORT = 32227
QUESTION = b"alpacadiscovery1"
LISTEN_S = 1.5
"""How long answers are waited for. Judgement: a server on the same network answers in some milliseconds."""
ASK_LIMIT_S = 1.5
"""For what a server has behind it."""
_LARGEST = 1024


def local_networks() -> list[IPv4Network]:
    """Return the networks this machine is on."""
    addresses = [ip for adapter in ifaddr.get_adapters() for ip in adapter.ips if isinstance(ip.ip, str)]
    return [IPv4Network(f"{ip.ip}/{ip.network_prefix}", strict=False) for ip in addresses]


def discover(networks: Sequence[IPv4Network], port: int = PORT, listen_s: float = LISTEN_S) -> tuple[FoundMount, ...]:
    """Return the mounts that answer on these networks, in the order of their addresses."""
    found = {mount for server in _servers(networks, port, listen_s) for mount in _mounts(*server)}
    return tuple(sorted(found, key=lambda mount: str(mount.address)))


def _servers(networks: Sequence[IPv4Network], port: int, listen_s: float) -> set[tuple[str, int]]:
    """Return host and port of every server that answers from one of the networks."""
    servers: set[tuple[str, int]] = set()
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asking:
        asking.setsockopt(socket.SOL_SOCKET, socket.SO_BROADCAST, 1)
        for network in networks:
            try:
                asking.sendto(QUESTION, (str(network.broadcast_address), port))
            except OSError:
                continue  # a network that takes no broadcasts
        deadline = time.monotonic() + listen_s
        while (left_s := deadline - time.monotonic()) > 0:
            asking.settimeout(left_s)
            try:
                answer, (host, _) = asking.recvfrom(_LARGEST)
                address = IPv4Address(host)
            except (OSError, AddressValueError):
                continue
            http_port = _port_in(answer)
            if http_port is not None and any(address in network for network in networks):
                servers.add((host, http_port))
    return servers


def _port_in(answer: bytes) -> int | None:
    document = _document(answer)
    port = document.get("AlpacaPort") if isinstance(document, dict) else None
    return port if isinstance(port, int) and not isinstance(port, bool) and 0 < port < 65536 else None


def _mounts(host: str, port: int) -> Iterator[FoundMount]:
    """Yield the mounts behind a server, as its management tells them."""
    line = PlainHttp(host, port)
    try:
        answer = line.exchange("GET", "/management/v1/configureddevices", b"", {}, ASK_LIMIT_S)
    except (NothingSent, NoAnswer):
        return
    finally:
        line.close()
    document = _document(answer.body) if answer.status == 200 else None
    devices = document.get("Value") if isinstance(document, dict) else None
    for device in devices if isinstance(devices, list) else []:
        kind, number = (device.get("DeviceType"), device.get("DeviceNumber")) if isinstance(device, dict) else (None, None)
        if text(kind) and str(kind).casefold() == "telescope" and isinstance(number, int) and 0 <= number < 2**32:
            yield FoundMount(MountAddress("alpaca", host, port, str(int(number))), text(device.get("DeviceName")))


def _document(data: bytes) -> Any:
    try:
        return json.loads(data)
    except (ValueError, RecursionError):
        return None
