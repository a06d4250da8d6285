"""The parser: a reply in plain words becomes entries, questions or a command.

``reader.read`` is its one door. A text goes through the rooms in this order, and each imports only
those before it:

- ``lexicon``: the beekeeper's words and what each means;
- ``tokens``: the text is normalised, cut into tokens, and its typos are put right;
- ``scan``: tokens become elements: named units, phrases of the lexicon, amounts, days;
- ``clauses``: elements become clauses: units and what is said of them, with yard and day;
- ``meaning``: clauses become findings; what is ambiguous becomes a question.

A text that asks for something is tried first, as a whole, by ``commands``.
"""
