"""JSpeech Grammar Format (W3C Note, 5 June 2000), the finite part of it: text -> tree -> phrases and their meaning."""
