"""What the owner of the machine sets, by environment or a ``.env`` file: one class a subject."""
