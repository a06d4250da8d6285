"""How long tests and proofs wait for what must happen."""

WAIT_AT_MOST_SECONDS = 60.0
"""Only a broken program makes anybody wait so long; a machine busy with other tests does not."""
