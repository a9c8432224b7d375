"""One page on how an engine hears a directory: right, refused and wrong within one try and two, by noise and voice; and chatter."""

from __future__ import annotations

import datetime
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from statistics import median
from time import perf_counter, process_time

from companion.audio import Audio
from companion.bench.measures import Taken, reliability
from companion.bench.recordings import Noise, Recording
from companion.errors import AudioFileError
from companion.hearing import Engine, Scope, listen
from companion.messages import Heard, NotNow, NotUnderstood
from companion.vocabulary import Vocabulary


@dataclass(frozen=True)
class Tries:
    """One utterance, and the same said again where the first wasn't taken."""

    first: Taken
    second: Taken | None

    def outcome(self, tries: int) -> str:
        """Return ``right``, ``wrong`` or ``refused`` within one try or two."""
        last = self.first if tries == 1 or self.second is None else self.second
        return "refused" if not last.is_accepted() else "right" if last.is_right else "wrong"

    @property
    def is_offered(self) -> bool:
        """Whether what was said is one of two that it asks about after two tries."""
        heard = self.second.hearing if self.second is not None else None
        return isinstance(heard, NotUnderstood) and any(replace(self.first, hearing=one).is_right for one in heard.likeliest)


@dataclass(frozen=True)
class Page:
    """What is measured with."""

    engine: Engine
    noise: Noise
    vocabulary: Vocabulary
    """What is known beside a live set."""

    def lines(self, recordings: Sequence[Recording], levels_db: Sequence[float | None]) -> Iterator[str]:
        """Yield the page, at each level of noise; None is as recorded."""
        yield f"{datetime.datetime.now(datetime.UTC):%Y-%m-%d}, {self.engine.name}, {len(recordings)} utterances"
        answers = [recording for recording in recordings if recording.is_answer]
        others = [recording for recording in recordings if not recording.is_answer]
        taken: list[Taken] = []
        for level_db in levels_db:
            heading = "as recorded" if level_db is None else f"{self.noise.kind} at {level_db:g} dB"
            if answers:
                tried = [self.tried(recording, level_db) for recording in answers]
                taken += [one for tries in tried for one in (tries.first, tries.second) if one is not None]
                yield from _table(heading, tried)
            if others:
                yield from self._not_answers(heading, others, level_db)
        if taken:
            yield f"decided in {_share_of_sound(taken):.2f} of the sound's length (processor time, median; sets laid out when first needed)"
            yield "confidence, all of them together:"
            yield from reliability(taken)

    def tried(self, recording: Recording, level_db: float | None) -> Tries:
        """Hear one utterance, and what is said again where it isn't taken."""
        again = recording.said_again
        try:
            sound = self.noise.add(recording, recording.sound(), level_db)
            first = self._taken(recording, sound, None)
            if again is None or first.is_accepted():
                return Tries(first, None)
            return Tries(first, self._taken(again, self.noise.add(again, again.sound(), level_db), sound))
        except AudioFileError:
            return Tries(Taken(recording, None, 0.0, 0.0), None)

    def _taken(self, recording: Recording, sound: Audio, earlier: Audio | None) -> Taken:
        start, processor = perf_counter(), process_time()
        hearing = listen(self.engine, sound, Scope(recording.active, earlier=earlier))
        return Taken(recording, hearing, sound.seconds, perf_counter() - start, process_time() - processor)

    def _not_answers(self, heading: str, recordings: Sequence[Recording], level_db: float | None) -> Iterator[str]:
        """Yield lines for what is no answer: a question known beside the live set, or talk that isn't meant for us."""
        asked = understood = answered = 0
        remarks, seconds = [], []
        for recording in recordings:
            meant = self.vocabulary.everything.parse(recording.words)
            sound = self.noise.add(recording, recording.sound(), level_db)
            start = perf_counter()
            hearing = listen(self.engine, sound, Scope(recording.active, self.vocabulary.everything))
            seconds.append(perf_counter() - start)
            known = hearing if isinstance(hearing, Heard | NotNow) else None
            if meant is None:
                is_right = known is None
                answered += known is not None
            else:
                # Heard is as right as NotNow: what was meant may have other words that are live.
                is_right = known is not None and (known.command, known.slots) == (meant.command, meant.slots)
                asked, understood = asked + 1, understood + is_right
            if not is_right:
                made = f"taken for '{known.phrase}' ({known.confidence:.2f})" if known else "refused"
                remarks.append(f"    {recording.path.name}: '{recording.words}' {made}")
        if asked:
            yield f"{heading}: {understood} of {asked} questions understood, decided after {median(seconds):.2f} s (median)"
        if asked < len(recordings):
            yield f"{heading}: {answered} of {len(recordings) - asked} sentences of chatter answered"
        yield from remarks


def _share_of_sound(taken: Sequence[Taken]) -> float:
    return median([one.processor_seconds / one.sound_seconds for one in taken if one.sound_seconds] or [0.0])


def _table(heading: str, heard: Sequence[Tries]) -> Iterator[str]:
    yield f"{heading:24}  right within one  wrong  refused   right within two  wrong  then offered       n"
    voices = dict.fromkeys(tries.first.recording.voice for tries in heard)
    for voice in ("", *(voices if len(voices) > 1 else ())):
        mine = [tries for tries in heard if voice in ("", tries.first.recording.voice)]
        one, two = (Counter(tries.outcome(number) for tries in mine) for number in (1, 2))
        shares = [f"{count / len(mine):7.1%}" for count in (one["right"], one["wrong"], one["refused"], two["right"], two["wrong"])]
        offered = f"{sum(tries.is_offered for tries in mine) / len(mine):.1%}"
        yield f"  {voice or 'all':24}{shares[0]:>15}{shares[1]:>8}{shares[2]:>9}{shares[3]:>19}{shares[4]:>8}{offered:>14}{len(mine):8}"
    for tries in heard:
        last = tries.second or tries.first
        if tries.outcome(2) == "wrong" and isinstance(last.hearing, Heard):
            yield f"    {last.recording.path.name}: '{last.recording.words}' taken for '{last.hearing.phrase}' ({last.confidence:.2f})"
