"""What commands print: lines for a person, or JSON for a program, never both on standard output."""

from __future__ import annotations

import sys
from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from companion.lines import complain, json_line, printable, put_line
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
                put_line(printable(line))

    def progress(self, *lines: str) -> None:
        """Print what happens meanwhile: where results go for a person, on standard error for a program."""
        for line in lines:
            if self.as_json:
                complain(line)
            else:
                put_line(printable(line))

    def document(self, document: object) -> None:
        """Print the result for a program, on one line."""
        if self.as_json:
            # Where standard output can't take every letter, JSON's own escapes can.
            put_line(json_line(document, ascii_only=(sys.stdout.encoding or "utf-8").casefold() not in ("utf-8", "utf8")))


def site_time(time: datetime | None, site: Site) -> str | None:
    """Return a time as ISO 8601 with the site's offset and seconds."""
    return None if time is None else time.astimezone(ZoneInfo(site.zone)).isoformat(timespec="seconds")
