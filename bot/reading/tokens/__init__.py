"""The lexer: a text normalised, cut into tokens, its typos, numbers, amounts and days."""
