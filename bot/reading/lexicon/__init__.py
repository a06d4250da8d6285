"""The words a beekeeper uses, grouped by what they mean. To teach a word, add it here."""
