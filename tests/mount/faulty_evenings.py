"""Random evenings with a mount on the line and faults on it: nothing turns unasked, and no command is sent twice.

``python -m tests.mount.faulty_evenings [EVENINGS [SEED]]`` runs many; a few seeded ones run with the tests.
"""

from __future__ import annotations

import random
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable
from pathlib import Path

from tests.mount.altaz_server import AltAzServer, altaz_server
from tests.mount.evening import SITE, Evening, evening, right_clock
from tests.mount.test_turning import point_at_the_star

TURNS = ("PUT slewtocoordinatesasync", "PUT slewtoaltazasync", "PUT park")
"""A halt stops the axes, too, so that a call to turn one is judged by its rate."""
SENT_ONCE = ("PUT utcdate", "PUT sitelatitude", "PUT sitelongitude")
Fault = Callable[[AltAzServer, random.Random], None]


def _push(server: AltAzServer, chance: random.Random) -> None:
    server.mount.azimuth_deg += chance.choice((-60.0, 60.0))


def _cut_and_restore(server: AltAzServer, chance: random.Random) -> None:
    server.cut()
    time.sleep(chance.uniform(0.1, 0.8))
    server.restore()


FAULTS: dict[str, Fault] = {
    "none": lambda server, chance: None,
    "poll hung": lambda server, chance: server.hung.add("GET azimuth"),
    "slew hung": lambda server, chance: server.hung.add("PUT slewtocoordinatesasync"),
    "slow": lambda server, chance: server.slow_s.update({"*": 0.15}),
    "nonsense": lambda server, chance: server.raw.update({"slewing": b"HTTP/1.1 200 OK\r\nContent-Length: 5\r\n\r\n{{{{{"}),
    "refuses time": lambda server, chance: server.missing.add("PUT utcdate"),
    "no sync": lambda server, chance: server.missing.update({"PUT synctocoordinates", "PUT synctoaltaz"}),
    "parked": lambda server, chance: setattr(server.mount, "parked", True),
    "pushed": _push,
    "cut and back": _cut_and_restore,
}
_ANSWERS = (
    "yes",
    "yes",
    "it's in the finder",
    "centred",
    "it says success",
    "say that again",
    "go back",
    "no",
    "stop",
    "help",
    "don't move it",
    "you may move it",
    "a bit left",
    "more",
    "too far",
    "wrong way",
    "it's at four o'clock",
    "next target",
    "found it",
    "it has arrived",
)
_AT_A_SIDE = ("it's at four o'clock", "just off to the left")
_STEPS = ("a bit left", "a bit right", "a bit up", "a bit down", "more", "too far", "wrong way", *_AT_A_SIDE)
_JUMPS = ("go to the settings", "go to the stars", "go to the stars")
_MOST_LINES = 28
_STANDS_WITHIN_S = 8.0
"""An axis whose halt went astray is told again."""


def one_evening(seed: int) -> tuple[str, Counter[str]]:
    """Hold one; return its fault and what was sent. AssertionError where something turned unasked or was sent twice."""
    chance = random.Random(seed)
    fault = chance.choice(list(FAULTS))
    mount = {"clock_error_s": right_clock() + chance.choice((0.0, 3600.0)), "latitude_deg": SITE.latitude_deg, "rate_deg_s": 20.0}
    asked, wanted, steps = 0, 0, 0
    with tempfile.TemporaryDirectory() as home, altaz_server(**mount, longitude_deg=SITE.longitude_deg) as server:
        for part in range(2):
            # The second part goes on with the evening that the first broke off.
            with evening(server, Path(home)) as held:
                for step in range(_MOST_LINES):
                    if held.turn.question is None:
                        break
                    if part == 0 and step == _MOST_LINES // 2:
                        FAULTS[fault](server, chance)
                    line = _line(held, chance, step)
                    asked += line == "turn there" or (line == "yes" and _question(held) == "ShallITurnThereToo")
                    steps += line in _STEPS
                    wanted += line == "yes" and _question(held) == "GiveItTimeAndPlace"
                    held.hear(line)
                    if line in ("turn there", "yes"):
                        time.sleep(chance.uniform(0.0, 0.5))
                    held.look()
                    if _question(held) in ("WhileItTurns", "ItSaysItTurns") and chance.random() < 0.7:
                        _let_it_arrive(held)
                    _check(server, asked, wanted, steps)
            server.hung.clear()
            server.raw.clear()
        _check(server, asked, wanted, steps)
        assert server.mount.altitude_deg > -5.0
        return fault, Counter(request for request in server.requests if request.startswith("PUT"))


def _line(held: Evening, chance: random.Random, step: int) -> str:
    """Return what a person might say next, mostly what leads on."""
    question = _question(held)
    if question in ("MayITurnThere", "ShallITurnThere") and chance.random() < 0.8:
        return "turn there"
    if question in ("ItPointsThere", "IsItInView"):
        return chance.choice(("next target", "next target", *_STEPS))
    if question == "IsItCentred" and chance.random() < 0.8:
        point_at_the_star(held)
        return "centred"
    if step == 1:
        return chance.choice(_JUMPS)
    fitting = {
        "IsTheProofInView": "in the eyepiece",
        "IsItReallyThat": "yes",
        "LeavesUndone": "yes",
        "ShallITurnThereToo": "yes",
        "GiveItTimeAndPlace": "yes",
        "IsItCentred": "centred",
        "IsItCentredNow": "centred",
        "WhatDoesTheMountSay": "it says success",
    }
    return fitting.get(question, "it's in the finder") if chance.random() < 0.6 else chance.choice(_ANSWERS)


def _question(held: Evening) -> str:
    return type(held.turn.question).__name__


def _let_it_arrive(held: Evening) -> None:
    """Wait a while for the slew's end."""
    deadline = time.monotonic() + 6.0
    while _question(held) in ("WhileItTurns", "ItSaysItTurns") and time.monotonic() < deadline:
        held.look()
        time.sleep(0.05)


def _check(server: AltAzServer, asked: int, wanted: int, steps: int) -> None:
    sent = Counter(server.requests)
    assert sum(sent[request] for request in TURNS) <= asked, "it was turned unasked, or twice"
    assert steps or not any(server.mount.rates), "an axis was turned"
    deadline = time.monotonic() + _STANDS_WITHIN_S
    while any(server.mount.rates):
        assert time.monotonic() < deadline, "an axis was left turning"
        time.sleep(0.02)
    assert all(sent[request] <= wanted for request in SENT_ONCE), "time or place were sent unasked, or twice"


def main() -> None:
    """Run many and count them by fault."""
    count, seed = (int(text) for text in (sys.argv[1:] + ["200", "16000"][len(sys.argv) - 1 :])[:2])
    faults: Counter[str] = Counter()
    turns, moves = 0, 0
    for one in range(seed, seed + count):
        try:
            fault, sent = one_evening(one)
        except AssertionError:
            print(f"seed {one}", flush=True)
            raise
        faults[fault] += 1
        turns += sum(sent[request] for request in TURNS)
        moves += sent["PUT moveaxis"]
    print(f"{count} evenings from seed {seed}, {turns} turns and {moves} axis calls sent, none unasked, nothing twice: {dict(faults)}")


if __name__ == "__main__":
    main()
