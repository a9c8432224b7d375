"""Damage done to a right input: bytes and pieces changed, moved, repeated, cut, and put in from a list of what often hurts."""

from __future__ import annotations

import random

HURTFUL = (
    b"\x00", b"\xff", b"\xed\xa0\x80", b"\x1b[2J", b"\n", b"\r", b'"', b"'", b"{", b"}" * 3, b"[" * 50, b"(" * 50, b"|", b"=", b";", b"<a>",
    b"/*", b"//", b"-1", b"0", b"1e999", b"NaN", b"Infinity", b"9" * 400, b"0.0000000000001", b"true", b"null", b"{}", b"[]",
    b"2026-11-05T20:00:00", b"0001-01-01T00:00:00Z", b"9999-12-31T23:59:59-14:00", b"x" * 300, b"\xe2\x80\xae", b"--", b"%s%n", b"../..",
)  # fmt: skip


def damaged(right: bytes, chance: random.Random) -> bytes:
    """Return an input with one to six things wrong with it."""
    data = bytearray(right)
    for _ in range(chance.randint(1, 6)):
        at = chance.randrange(len(data) + 1)
        to = min(len(data), at + chance.choice((1, 1, 2, 4, 20, 200)))
        match chance.randrange(7):
            case 0 if data:
                data[min(at, len(data) - 1)] ^= 1 << chance.randrange(8)
            case 1:
                data[at:to] = b""
            case 2:
                data[at:at] = chance.choice(HURTFUL)
            case 3:
                data[at:to] = chance.choice(HURTFUL)
            case 4:
                data[at:at] = data[at:to] * chance.choice((1, 2, 30))
            case 5:
                del data[at:]
            case _:
                other = chance.randrange(len(data) + 1)
                data[other:other] = data[at:to]
    return bytes(data[:100_000])
