"""Words and signs: text to SI and back, spreads, draws, bands, frozen records and the one error tree."""
