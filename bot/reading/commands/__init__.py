"""Texts that ask for something rather than report."""
