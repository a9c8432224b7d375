"""All phrases of a set as one tree of tokens, so that each shared beginning is computed once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from companion.hearing.grammar import Phrase
from companion.hearing.whisper.network import IntArray
from companion.hearing.whisper.respellings import NO_RESPELLINGS, Respellings
from companion.hearing.whisper.tokens import Tokenizer
from companion.hearing.whisper.written_variants import capitalised, whole_forms
from companion.orthography import Orthography

ROOT = 1
"""The node after which the words begin; node 0 is the start of the transcript."""


@dataclass(frozen=True, eq=False)
class PrefixTree:
    """The tree, and where each written form of each phrase runs through it."""

    tokens: IntArray
    """Shape (nodes,)."""
    parents: IntArray
    """Shape (nodes,), -1 for the first."""
    edges_from: IntArray
    """Shape (steps,): the node each step of each form starts from."""
    edges_to: IntArray
    """Shape (steps,): the token it takes."""
    first_edges: IntArray
    """Shape (forms,): where each form's steps begin among all steps."""
    last: IntArray
    """Shape (forms,): the node each form ends in."""
    lengths: IntArray
    """Shape (forms,): tokens, with the closing one."""
    owners: IntArray
    """Shape (forms,): the phrase each form belongs to."""


def build(phrases: Sequence[Phrase], tokenizer: Tokenizer, writing: Orthography, respellings: Respellings = NO_RESPELLINGS) -> PrefixTree:
    """Lay phrases out; each is written with a small and with a large first letter, in figures and in words."""
    forms = [
        (owner, tokenizer.encode(form))
        for owner, phrase in enumerate(phrases)
        for form in dict.fromkeys(
            cased for text in whole_forms(phrase.written, writing, respellings) for cased in (capitalised(text), text)
        )
    ]
    return lay_out(forms, tokenizer)


def lay_out(forms: Sequence[tuple[int, Sequence[int]]], tokenizer: Tokenizer) -> PrefixTree:
    """Lay out forms given as the phrase they belong to (counted from 0) and their tokens."""
    tokens, parents = [tokenizer.start, tokenizer.no_timestamps], [-1, 0]
    children: dict[tuple[int, int], int] = {}
    edges: list[tuple[int, int]] = []
    first_edges, last = [], []
    for _, form in forms:
        node = ROOT
        first_edges.append(len(edges))
        for token in form:
            edges.append((node, token))
            if (node, token) not in children:
                children[node, token] = len(tokens)
                tokens.append(token)
                parents.append(node)
            node = children[node, token]
        last.append(node)
    return PrefixTree(
        _array(tokens),
        _array(parents),
        _array([node for node, _ in edges]),
        _array([token for _, token in edges]),
        _array(first_edges),
        _array(last),
        _array([len(form) + 1 for _, form in forms]),
        _array([owner for owner, _ in forms]),
    )


def _array(values: Sequence[int]) -> IntArray:
    return np.array(values, np.intp)
