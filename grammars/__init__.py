"""Grammar files, one folder a language: the words the companion listens for."""
