"""Search through a word graph for the texts that fit an utterance best: for sets too large to score every phrase."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from companion.hearing.whisper.confidence import LENGTH_POWER
from companion.hearing.whisper.features import FloatArray
from companion.hearing.whisper.network import EncodedUtterance, IntArray, Network, TokenTree
from companion.hearing.whisper.scorer import CLOSING_SIGNS
from companion.hearing.whisper.token_lexicon import Before, Branch, Exit, TokenLexicon
from companion.hearing.whisper.tokens import Tokenizer

WIDTH = 20
"""Texts followed at once. Rare names begin alike and improbably: of 15 hard ones 8 were lost with a width of 8, 4 with 20, for a few
hundredths of a second more."""
WIDTH_OF_NAMES = 48
"""The same where names are said. Of 99 times "it says NAME" by ten voices that may be tuned on the name is then among the six likeliest 96
times instead of 92, for a tenth of a second more."""
_MOST_CURSORS = 16
"""Readings of one text by the grammar kept at once."""
_MOST_TOKENS = 120
_HOPELESS = 15.0
"""A text whose worth lies this far below that of the best finished one is given up."""
_NOISE_SHARE = 0.7
"""The share of a text's log-probability on noise that is taken off what it is worth while it is followed: rare names begin improbably over
any sound, and were given up for likelier words. Of 99 times "it says NAME" by ten voices that may be tuned on 62 were understood without
it, 74 with half of this share, and on half of them two more with this. Of 38 examples that are searched, at 9 dB, 30 instead of 26, and of
35 sentences with a word exchanged 14 instead of 11."""


@dataclass(frozen=True)
class Finished:
    """A text that is a whole phrase."""

    words: str
    """The grammar's own."""
    tokens: tuple[int, ...]
    log_probability: float
    """Of the text and its ending."""
    on_noise: float = 0.0
    """The same where nobody speaks."""

    @property
    def worth(self) -> float:
        """How much likelier it is than over any sound."""
        return self.log_probability - _NOISE_SHARE * self.on_noise

    @property
    def rank(self) -> float:
        """Worth over a power of the length."""
        return self.worth / float((len(self.tokens) + 1) ** LENGTH_POWER)


@dataclass(frozen=True, eq=False)
class _Cursor:
    """One reading of a text: where in which tree of tokens it stands, and the whole words behind it."""

    branch: Branch
    words: str
    end: Exit | None
    """Set at the beginning of a tree: the words that led there."""
    closed: bool = False
    """A full stop was written after a figure; only the end of the transcript may follow."""


@dataclass(frozen=True, eq=False)
class _Text:
    """One text being followed."""

    tokens: tuple[int, ...]
    log_probability: float
    on_noise: float
    parent: int
    """The node of its last token but one."""
    cursors: tuple[_Cursor, ...]


_NOWHERE = Branch()


class Beam:
    """Searches with one model."""

    def __init__(self, network: Network, tokenizer: Tokenizer) -> None:
        """Take a model and its vocabulary."""
        self._network = network
        self._prompt = np.array([tokenizer.start, tokenizer.no_timestamps], np.intp)
        self._comma = tokenizer.encode(",")[0]
        self._stop = tokenizer.encode(".")[0]
        closing = [tokenizer.encode(sign)[0] for sign in CLOSING_SIGNS]
        self._endings = np.array([*closing, tokenizer.end], np.intp)
        self._after_figures = np.flatnonzero(self._endings != self._stop)

    def search(
        self, lexicon: TokenLexicon, encoded: EncodedUtterance, silent: EncodedUtterance | None, width: int = WIDTH
    ) -> tuple[Finished, ...]:
        """Return the best texts that are whole phrases, one for each, best first; none when no phrase came to its end.

        ``silent`` is a sound without speech, on which every text is followed, too; without it what is likely over any sound stays so.
        ``width`` texts are followed at once.
        """
        heard = (encoded,) if silent is None else (encoded, silent)
        tree = TokenTree(self._network, *heard)
        # The states after the prompt, one over each.
        states = tree.add(self._prompt, np.array([-1, 0]))[1::2]
        nodes = 2
        start = _Cursor(lexicon.at(lexicon.graph.start, Before.NOTHING), "", None)
        texts, at = [_Text((), 0.0, 0.0, -1, (start,))], [1]
        finished: dict[str, Finished] = {}
        for _ in range(_MOST_TOKENS):
            followers = [np.array(sorted(self._followers(text)), np.intp) for text in texts]
            tokens = np.unique(np.concatenate([*followers, self._endings]))
            # Nearly: the few best texts are scored exactly afterwards.
            logits, normalisers = self._network.some_logits(states, tokens)
            logits -= normalisers[:, None]
            spoken = logits[: len(texts)]
            pairs = np.stack([spoken, np.zeros_like(spoken) if silent is None else logits[len(texts) :]], axis=1)
            for text, pair in zip(texts, pairs[:, :, np.searchsorted(tokens, self._endings)], strict=True):
                self._finish(text, pair, lexicon, finished)
            steps = [(chosen, pair[:, np.searchsorted(tokens, chosen)]) for pair, chosen in zip(pairs, followers, strict=True)]
            texts = self._next(texts, steps, at, lexicon, finished, width=width)
            if not texts:
                break
            at = list(range(nodes, nodes + len(texts)))
            nodes += len(texts)
            states = tree.add(np.array([text.tokens[-1] for text in texts]), np.array([text.parent for text in texts]))
        return tuple(sorted(finished.values(), key=lambda text: -text.rank))

    def _next(
        self,
        texts: list[_Text],
        steps: list[tuple[IntArray, FloatArray]],
        at: list[int],
        lexicon: TokenLexicon,
        finished: dict[str, Finished],
        *,
        width: int,
    ) -> list[_Text]:
        """Return the texts that go on, by the tokens that may follow each (``steps``) and their log-probabilities, shape (2, tokens)."""
        floor = max((text.worth for text in finished.values()), default=-np.inf) - _HOPELESS
        candidates: list[tuple[float, int, int, float, float]] = []
        for number, (text, (tokens, logprobs)) in enumerate(zip(texts, steps, strict=True)):
            spoken, on_noise = text.log_probability + logprobs[0], text.on_noise + logprobs[1]
            worth = spoken - _NOISE_SHARE * on_noise
            for place in np.argsort(-worth)[:width]:
                if worth[place] > floor:
                    candidates.append((float(worth[place]), number, int(tokens[place]), float(spoken[place]), float(on_noise[place])))
        candidates.sort(reverse=True)
        return [
            _Text((*texts[number].tokens, token), spoken, on_noise, at[number], self._advance(texts[number], token, lexicon))
            for _, number, token, spoken, on_noise in candidates[:width]
        ]

    def _followers(self, text: _Text) -> set[int]:
        found = {token for cursor in text.cursors for token in cursor.branch.children}
        for cursor in text.cursors:
            if cursor.end is not None and not cursor.closed:
                found.add(self._comma)
                if cursor.end.before is Before.FIGURE:
                    found.add(self._stop)
        return found

    def _advance(self, text: _Text, token: int, lexicon: TokenLexicon) -> tuple[_Cursor, ...]:
        cursors: list[_Cursor] = []
        for cursor in text.cursors:
            if cursor.end is not None and not cursor.closed:
                if token == self._comma:
                    cursors.append(_Cursor(lexicon.at(cursor.end.place, Before.WORD), cursor.words, None))
                elif token == self._stop and cursor.end.before is Before.FIGURE:
                    cursors.append(_Cursor(_NOWHERE, cursor.words, cursor.end, closed=True))
            branch = cursor.branch.children.get(token)
            if branch is None:
                continue
            if branch.children:
                cursors.append(_Cursor(branch, cursor.words, None))
            for end in branch.exits:
                cursors.append(_Cursor(lexicon.at(end.place, end.before), f"{cursor.words} {end.words}".strip(), end))
        return tuple(cursors[:_MOST_CURSORS])

    def _finish(self, text: _Text, pair: FloatArray, lexicon: TokenLexicon, finished: dict[str, Finished]) -> None:
        """Note the phrases a text is in whole, with the probability that it ends here (``pair``: of each ending, shape (2, endings)).

        After a figure a full stop may begin a decimal, so there it is followed as a token of its own.
        """
        for cursor in text.cursors:
            if cursor.end is None or not lexicon.graph.may_end(cursor.end.place):
                continue
            if cursor.closed:
                ending = pair[:, -1]
            else:
                figure = cursor.end.before is Before.FIGURE
                ending = np.logaddexp.reduce(pair[:, self._after_figures] if figure else pair, axis=1)
            whole = Finished(cursor.words, text.tokens, text.log_probability + float(ending[0]), text.on_noise + float(ending[1]))
            known = finished.get(cursor.words)
            if known is None or whole.rank > known.rank:
                finished[cursor.words] = whole
