"""English for two who know the procedure, in few words. Who looks and who acts is still said where it isn't plain."""

from __future__ import annotations

from typing import Literal

from companion.equipment import CompassKind
from companion.languages.en.night_phrases import NIGHT
from companion.languages.en.pose_phrases import compass_shown
from companion.languages.en.settings_phrases import SETTINGS
from companion.languages.en.spoken_names import spoken_name
from companion.languages.en.stars_phrases import star_tersely
from companion.languages.phrase import Chapter, Scene
from companion.talk import ground_phrases as ground
from companion.talk import night_phrases as night
from companion.talk import observation_phrases as observation
from companion.talk import packing_phrases as packing
from companion.talk import pose_phrases as pose
from companion.talk import settings_phrases as settings
from companion.talk import stars_phrases as stars
from companion.talk import targets_phrases as targets


def face_true_north(scene: Scene, *, compass: CompassKind | Literal["unknown"] = "unknown") -> str:
    """Say only what the compass must show."""
    shown = compass_shown(scene, compass)
    if shown is None:
        return "True north, without the compass. Ask for another way."
    if compass == "needle":
        return f"Eyes: lay the needle's north end over {shown}; true north is at the zero. Hands: point the tube there."
    return f"Eyes: true north is where the compass reads {shown}. Hands: point the tube there."


def proof_star(scene: Scene, *, star: str) -> str:
    """Name the star that proves it."""
    return f"Now prove it. Hands: have the mount go to {spoken_name(star)}."


RELAY_TERSE = Chapter(
    phrases={},
    relayed_tersely={
        ground.LevelTheTripod: "Eyes: the bubble. Hands: the leg it runs to. Say when it's level.",
        ground.ShallWeDoTheFinder: "Shall we line up the finder?",
        ground.TurnTheFinderScrews: "Eyes say where it is, hands turn the finder's screws, not the tube. Ready?",
        pose.LevelTheBase: "Eyes: the bubble on the base. Say when it's level.",
        pose.FaceTrueNorth: face_true_north,
        pose.LevelTheTube: "Bring the tube level, by the spirit level.",
        settings.BeforeTheSettings: "Now the settings: eyes read, hands key.",
        settings.KeyTheDate: SETTINGS.terse[settings.KeyTheDate],
        settings.KeyTheTime: SETTINGS.terse[settings.KeyTheTime],
        settings.KeyDaylightSaving: SETTINGS.terse[settings.KeyDaylightSaving],
        settings.KeyTheZone: SETTINGS.terse[settings.KeyTheZone],
        settings.KeyTheLatitude: SETTINGS.terse[settings.KeyTheLatitude],
        settings.KeyTheLongitude: SETTINGS.terse[settings.KeyTheLongitude],
        stars.FirstStar: star_tersely,
        stars.AnotherStar: star_tersely,
        targets.ProofStar: proof_star,
        night.IntroduceTarget: NIGHT.terse[night.IntroduceTarget],
        observation.HowDidItShow: "Eyes: easily, only just, suspected, or not at all?",
        observation.HowDidItLook: "Eyes: a word for it? Or: that's all.",
        observation.HowSteadyIsTheAir: "Eyes: steadiness, one to five?",
        observation.HowClearIsTheAir: "Eyes: clearness, one to five?",
        packing.SearchTheGround: "Eyes: search the ground by torch. Done?",
    },
)
