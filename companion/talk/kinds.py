"""Sayings that belong together: in every language one thing is said of all of a kind."""

from __future__ import annotations

from typing import Any

from companion.talk import by_hand_phrases as by_hand
from companion.talk import every_ask
from companion.talk import night_phrases as say
from companion.talk.answers import EyepieceAnswer, FinderAnswer, ProofAnswer, UnseenAnswer, ViewAnswer
from companion.talk.saying import Answers, Ask

AT_A_TARGET: tuple[type[Ask[Answers]], ...] = (
    say.IntroduceTarget,
    say.FindTarget,
    say.LookAtIt,
    say.WhatToSee,
    say.MoreAboutIt,
    say.EyepieceForIt,
    say.HowWellItStands,
    say.NoneOfThem,
    say.NothingBefore,
    say.NotUpNow,
    say.HiddenNow,
    say.TooNearTheSun,
    say.HowManySeen,
    say.StillToCome,
    say.MoonAndTargets,
    say.DewOnTheGlass,
    say.BatteryFading,
    say.FilterForIt,
    say.EnjoyIt,
    say.GetItSharp,
    say.LetItSettle,
    say.EyesDazzled,
    say.WhyUpsideDown,
    say.NoneInConstellation,
    say.NoneInDirection,
    say.SkyIsSoDark,
    say.FinderIsSoWide,
    say.EyepieceIsIn,
)
"""The questions that are no more than a word while one looks; asked again, they all ask the same."""
SEARCH: tuple[type[Ask[Answers]], ...] = (say.CheckTheFinder, say.LowestPower, say.LookBeside, say.HowItLooks, say.SweepForIt)
"""The ways to look for a target, one step after another."""
FOR_AN_EYE: tuple[type[Ask[Any]], ...] = tuple(
    kind for kind in every_ask() if kind.expects in (FinderAnswer, EyepieceAnswer, ViewAnswer, ProofAnswer, UnseenAnswer)
)
"""What only an eye answers: where nobody has come to look, that is said instead of asking."""
BY_EYE: tuple[type[Ask[Any]], ...] = (
    by_hand.StartByHand,
    by_hand.StepByEye,
    by_hand.StepByFinder,
    by_hand.BackToTheStarBefore,
    say.CheckTheFinder,
    say.LowestPower,
    say.LookBeside,
    say.SweepForIt,
)
"""Ways to find a target by eye."""
