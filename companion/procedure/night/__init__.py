"""The night after the alignment, in pieces.

``state``: what was shown, seen, put off and wished for; ``offer``: what could be shown next; ``leading``: going there;
``by_line``: turning a mount on the line there; ``darkness``: how dark it is here; ``answers``: what each answer leads to;
``search``: what to try where nothing shows; ``remarks``: what is worth a word at a pause.
"""
