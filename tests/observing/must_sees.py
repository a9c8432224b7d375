"""Twenty-seven places, nights and telescopes with the five things an experienced observer would show there.

Common practice, no published source.

Written from general knowledge before our own ranking was run on any of them; where planets and the Moon stand was looked up. The lists are
one observer's taste: another would share perhaps four of the five. Four of the twelve (``ASIDE``) decide nothing: weights were tuned on
the other eight, and these were run once at the end. Four more (``PUT_ASIDE_LATER``) were written when the ranking was finished, before it
was run on them, and decide nothing either; nor do the three after them (``PUT_ASIDE_LAST``) and the four of November 2026
(``PUT_ASIDE_NOVEMBER``), nor the four after those (``PUT_ASIDE_2028``), written and committed before they were run.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from companion.equipment import Eyepiece
from companion.observing import SiteSky, Telescope
from companion.sky import Moment, Site


@dataclass(frozen=True)
class Evening:
    """A place, a night and a telescope, and what must be seen there."""

    name: str
    moment: Moment
    telescope: Telescope
    eyepieces: tuple[Eyepiece, ...]
    sky: SiteSky
    must_sees: tuple[str, ...]
    """By catalogue number, else by name; in no order."""


def _evening(
    name: str,
    place: tuple[float, float],
    time: str,
    *,
    telescope: tuple[float, ...],
    sky: float,
    must_sees: str,
) -> Evening:
    """Return an evening; ``telescope``: aperture, focal length, then the eyepieces; the longest shows 60 degrees, the others 50."""
    aperture_mm, focal_length_mm, longest, *others = telescope
    return Evening(
        name=name,
        moment=Moment(Site(*place), datetime.fromisoformat(time)),
        telescope=Telescope(aperture_mm, focal_length_mm, central_obstruction=0.0 if aperture_mm <= 100.0 else 0.25),
        eyepieces=(Eyepiece(longest, 60.0), *(Eyepiece(focal_length_mm) for focal_length_mm in others)),
        sky=SiteSky(sky),
        must_sees=tuple(must_sees.split("; ")),
    )


TUNED = (
    _evening(
        "48 N, January, new Moon, 80 mm", (48.0, 16.0), "2027-01-07T21:00+01:00",
        telescope=(80.0, 400.0, 25.0, 10.0, 5.0), sky=20.8, must_sees="M 42; M 45; C 14; M 31; Saturn",
    ),
    _evening(
        "48 N, January, new Moon, 300 mm", (48.0, 16.0), "2027-01-07T21:00+01:00",
        telescope=(300.0, 1500.0, 32.0, 15.0, 8.0), sky=20.8, must_sees="M 42; M 31; C 14; M 82; M 37",
    ),
    _evening(
        "45 N, March, full Moon, 130 mm", (45.0, 7.0), "2027-03-22T21:00+01:00",
        telescope=(130.0, 650.0, 25.0, 10.0, 5.0), sky=20.5, must_sees="Jupiter; Mars; Castor; Algieba; Mizar",
    ),
    _evening(
        "56 N, June, no true night, 150 mm", (55.9, -3.2), "2027-06-05T00:30+01:00",
        telescope=(150.0, 1200.0, 32.0, 15.0, 8.0), sky=20.8, must_sees="M 13; M 57; Albireo; Epsilon Lyrae; Mizar",
    ),
    _evening(
        "35 S, July, new Moon, 200 mm", (-35.0, 149.0), "2026-07-14T20:30+10:00",
        telescope=(200.0, 1200.0, 32.0, 15.0, 8.0), sky=21.7, must_sees="NGC 5139; NGC 3372; NGC 4755; M 8; Rigil Kentaurus",
    ),
    _evening(
        "35 S, December, new Moon, 150 mm", (-35.0, 18.0), "2026-12-09T22:30+02:00",
        telescope=(150.0, 750.0, 25.0, 10.0, 6.0), sky=21.5, must_sees="NGC 104; NGC 2070; M 42; NGC 253; Saturn",
    ),
    _evening(
        "40 N, August, new Moon, 250 mm", (40.0, -4.0), "2026-08-13T23:00+02:00",
        telescope=(250.0, 1200.0, 32.0, 15.0, 8.0), sky=21.6, must_sees="M 13; M 27; M 57; M 8; NGC 6992",
    ),
    _evening(
        "52 N, April, new Moon, 250 mm", (52.0, 0.0), "2027-04-06T22:30+01:00",
        telescope=(250.0, 1200.0, 32.0, 15.0, 8.0), sky=21.2, must_sees="M 51; M 82; M 3; Jupiter; M 66",
    ),
)  # fmt: skip

ASIDE = (
    _evening(
        "equator, May, new Moon, 100 mm", (0.0, 37.0), "2027-05-06T20:30+03:00",
        telescope=(100.0, 600.0, 25.0, 10.0, 5.0), sky=21.5, must_sees="NGC 5139; NGC 3372; Jupiter; NGC 4755; M 104",
    ),
    _evening(
        "50 N, October, new Moon, 200 mm", (50.0, 14.0), "2026-10-10T21:00+02:00",
        telescope=(200.0, 1000.0, 25.0, 10.0, 6.0), sky=20.3, must_sees="M 31; C 14; M 13; M 57; Albireo",
    ),
    _evening(
        "36 N, November, half Moon, city, 70 mm", (35.7, 139.7), "2026-11-17T19:30+09:00",
        telescope=(70.0, 700.0, 25.0, 10.0, 6.0), sky=18.0, must_sees="Moon; Saturn; Albireo; Almach; M 45",
    ),
    _evening(
        "34 S, September, full Moon, 250 mm", (-34.0, -58.0), "2026-09-26T21:00-03:00",
        telescope=(250.0, 1250.0, 32.0, 15.0, 8.0), sky=20.5, must_sees="Rigil Kentaurus; NGC 104; Saturn; M 22; M 7",
    ),
)  # fmt: skip

PUT_ASIDE_LATER = (
    _evening(
        "42 N, September, new Moon, suburb, 150 mm", (42.0, -72.0), "2027-09-01T21:30-04:00",
        telescope=(150.0, 750.0, 25.0, 10.0, 6.0), sky=19.3, must_sees="M 13; M 57; M 27; Albireo; M 11",
    ),
    _evening(
        "30 S, April, new Moon, 300 mm", (-30.0, -71.0), "2027-04-07T21:30-04:00",
        telescope=(300.0, 1500.0, 32.0, 15.0, 8.0), sky=21.8, must_sees="NGC 3372; NGC 5139; NGC 2070; Jupiter; NGC 4755",
    ),
    _evening(
        "20 N, February, half Moon, 100 mm", (20.0, -100.0), "2027-02-14T20:30-06:00",
        telescope=(100.0, 600.0, 25.0, 10.0, 5.0), sky=20.5, must_sees="Moon; Jupiter; M 42; Mars; Castor",
    ),
    _evening(
        "65 N, December, new Moon, 200 mm", (65.0, 25.0), "2026-12-09T19:00+02:00",
        telescope=(200.0, 1200.0, 32.0, 15.0, 8.0), sky=21.4, must_sees="M 31; C 14; M 45; M 57; Saturn",
    ),
)  # fmt: skip

PUT_ASIDE_LAST = (
    _evening(
        "33 N, May, new Moon, 400 mm", (33.0, -105.0), "2027-05-05T22:30-06:00",
        telescope=(400.0, 1800.0, 32.0, 15.0, 8.0), sky=21.7, must_sees="M 51; M 13; NGC 4565; M 104; M 3",
    ),
    _evening(
        "38 S, October, new Moon, 120 mm", (-38.0, 145.0), "2026-10-12T21:30+11:00",
        telescope=(120.0, 600.0, 25.0, 10.0, 5.0), sky=21.5, must_sees="NGC 104; NGC 253; M 8; Saturn; M 22",
    ),
    _evening(
        "52 N, July, full Moon, suburb, 90 mm", (52.0, 10.0), "2027-07-18T23:30+02:00",
        telescope=(90.0, 900.0, 25.0, 10.0, 6.0), sky=18.8, must_sees="Albireo; Epsilon Lyrae; Mizar; Rasalgethi; M 13",
    ),
)  # fmt: skip

PUT_ASIDE_NOVEMBER = (
    _evening(
        "60 N, March, new Moon, 80 mm", (60.0, 18.0), "2028-03-25T21:30+01:00",
        telescope=(80.0, 480.0, 25.0, 10.0, 5.0), sky=21.0, must_sees="Jupiter; M 44; C 14; M 81; Castor",
    ),
    _evening(
        "equator, January, full Moon, 300 mm", (0.5, 103.0), "2028-01-12T21:00+08:00",
        telescope=(300.0, 1500.0, 32.0, 15.0, 8.0), sky=20.5, must_sees="Saturn; M 42; Almach; Rigel; Mesarthim",
    ),
    _evening(
        "25 S, August, new Moon, 80 mm", (-25.0, 28.0), "2027-08-31T20:00+02:00",
        telescope=(80.0, 480.0, 25.0, 10.0, 5.0), sky=21.5, must_sees="M 8; M 7; M 22; Rigil Kentaurus; NGC 5139",
    ),
    _evening(
        "40 N, October, half Moon, 300 mm", (40.0, -112.0), "2027-10-07T20:30-06:00",
        telescope=(300.0, 1500.0, 32.0, 15.0, 8.0), sky=21.0, must_sees="Moon; M 13; M 57; M 27; Albireo",
    ),
)  # fmt: skip

PUT_ASIDE_2028 = (
    _evening(
        "44 N, May, half Moon, suburb, 200 mm", (44.0, 11.0), "2028-05-02T22:00+02:00",
        telescope=(200.0, 1200.0, 32.0, 15.0, 8.0), sky=19.3, must_sees="Moon; Jupiter; Mizar; Algieba; M 3",
    ),
    _evening(
        "50 N, February, new Moon, 120 mm", (50.0, 8.0), "2028-02-25T20:30+01:00",
        telescope=(120.0, 900.0, 32.0, 15.0, 6.0), sky=21.0, must_sees="M 42; M 45; C 14; M 81; M 35",
    ),
    _evening(
        "20 S, June, full Moon, 150 mm", (-20.0, -44.0), "2028-06-07T20:00-03:00",
        telescope=(150.0, 1200.0, 32.0, 15.0, 8.0), sky=20.0, must_sees="Jupiter; Rigil Kentaurus; NGC 5139; NGC 4755; Acrux",
    ),
    _evening(
        "33 S, January, new Moon, 200 mm", (-33.0, 151.0), "2028-01-27T21:45+11:00",
        telescope=(200.0, 1200.0, 32.0, 15.0, 8.0), sky=21.5, must_sees="M 42; NGC 2070; NGC 104; NGC 3372; M 41",
    ),
)  # fmt: skip
