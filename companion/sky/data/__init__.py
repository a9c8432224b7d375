"""The tables the sky reads, and the scripts that made them."""
