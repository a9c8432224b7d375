"""What commands print: lines for a person, or JSON for a program, never both on standard output."""

from __future__ import annotations

import json
import sys
from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from companion.sky import Site


@dataclass(frozen=True)
class Printer:
    """Prints for whoever reads."""

    as_json: bool
    """Whether standard output belongs to one JSON document."""

    def lines(self, *lines: str) -> None:
        """Print results for a person; a program reads the document instead."""
        if not self.as_json:
            for line in lines:
                print(line, flush=True)

    def progress(self, *lines: str) -> None:
        """Print what happens meanwhile: where results go for a person, on standard error for a program."""
        for line in lines:
            print(line, file=sys.stderr if self.as_json else sys.stdout, flush=True)

    def document(self, document: object) -> None:
        """Print the result for a program, on one line."""
        if self.as_json:
            print(json.dumps(document, ensure_ascii=False, allow_nan=False), flush=True)


def complain(*lines: str) -> None:
    """Print what was amiss and didn't stop us, on standard error."""
    for line in lines:
        print(line, file=sys.stderr, flush=True)


def site_time(time: datetime | None, site: Site) -> str | None:
    """Return a time as ISO 8601 with the site's offset and seconds."""
    return None if time is None else time.astimezone(ZoneInfo(site.zone)).isoformat(timespec="seconds")
