"""The scanner: tokens become elements, such as named units, phrases of the lexicon and days."""
