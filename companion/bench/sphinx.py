"""The yardstick: pocketsphinx with the same closed grammars, an older kind of recogniser that anybody can install."""

from __future__ import annotations

from typing import Any

import numpy as np

from companion.audio import SPEECH_RATE_HZ, Audio
from companion.errors import MissingPart
from companion.hearing import ActiveSet
from companion.hearing.jsgf.ast import Choice, Node, Reference, Rule, Sequence, Tagged, Word
from companion.messages import Heard, Hearing, NotUnderstood


class SphinxEngine:
    """Recognises with pocketsphinx's packaged English model. It has no confidence: whatever it can match is accepted."""

    name = "pocketsphinx"

    def __init__(self) -> None:
        """Load the model. Raises MissingPart where pocketsphinx is not installed."""
        try:
            import pocketsphinx  # type: ignore[import-untyped,unused-ignore]  # noqa: PLC0415 - imported where needed, so that a missing library has a remedy
        except ImportError as error:
            raise MissingPart("pocketsphinx is not installed; run: pip install pocketsphinx") from error
        self._decoder: Any = pocketsphinx.Decoder(lm=None, loglevel="FATAL", samprate=float(SPEECH_RATE_HZ))
        self._searches: dict[ActiveSet, str] = {}
        self.unknown_words: set[str] = set()
        """Words of the grammars that it has no pronunciation for; phrases with them can't be heard."""

    def prepare(self, active: ActiveSet) -> None:
        """Give it a set as one JSGF grammar."""
        if active in self._searches:
            return
        name = f"set{len(self._searches)}"
        rules: dict[str, str] = {}
        tops = [top for grammar, name in active.sources if (top := self._rule(grammar.rule(name), rules))]
        lines = [f"{reference} = {body};" for reference, body in rules.items() if body]
        text = f"#JSGF V1.0;\ngrammar {name};\npublic <top> = {' | '.join(tops) or '<VOID>'};\n" + "\n".join(lines) + "\n"
        self._decoder.add_jsgf_string(name, text)
        self._searches[active] = name

    def recognise(self, audio: Audio, active: ActiveSet) -> Hearing:
        """Tell what an utterance says."""
        self.prepare(active)
        self._decoder.activate_search(self._searches[active])
        samples = np.clip(audio.at_rate(SPEECH_RATE_HZ).samples, -1.0, 1.0)
        self._decoder.start_utt()
        self._decoder.process_raw((samples * 32767).astype("<i2").tobytes(), full_utt=True)
        self._decoder.end_utt()
        best = self._decoder.hyp()
        phrase = active.parse(best.hypstr) if best is not None and best.hypstr else None
        return NotUnderstood() if phrase is None else Heard(phrase.words, phrase.command, phrase.slots)

    def _rule(self, rule: Rule, done: dict[str, str]) -> str:
        """Write a rule and those under it into ``done``; return the reference to it, or nothing where nothing of it can be said.

        Pocketsphinx takes a grammar with <VOID> anywhere in it for one that never matches, so what can't be said is left out.
        """
        reference = f"<r{id(rule)}>"
        if reference not in done:
            done[reference] = self._written(rule.body, done)
        return reference if done[reference] else ""

    def _written(self, node: Node, done: dict[str, str]) -> str:
        match node:
            case Word(text=text):
                words = text.lower().replace("-", " ").split()
                missing = [word for word in words if self._decoder.lookup_word(word) is None]
                self.unknown_words.update(missing)
                return "" if missing else " ".join(words)
            case Reference(rule=rule):
                return self._rule(rule, done)
            case Tagged(item=item):
                return self._written(item, done)
            case Choice(options=options):
                parts = [part for option in options if (part := self._written(option, done))]
                return f"( {' | '.join(parts)} )" if parts else ""
            case Sequence(items=items):
                parts = [self._written(item, done) for item in items]
                return f"( {' '.join(parts) or '<NULL>'} )" if all(parts) else ""
