"""What is due at each unit and when, worked out from what happened there."""
