"""What the owner of the machine sees of the running program: counts, heartbeats, health."""
