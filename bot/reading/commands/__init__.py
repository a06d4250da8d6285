"""Parsers of whole texts that ask for something rather than report."""
