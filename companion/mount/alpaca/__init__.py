"""A mount behind ASCOM Alpaca, the published REST interface.

The calls: https://ascom-standards.org/api/. What they mean: https://ascom-standards.org/newdocs/telescope.html.
"""
