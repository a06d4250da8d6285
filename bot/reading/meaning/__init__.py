"""The semantics: what a clause says of each unit becomes findings; ambiguity becomes a question."""
