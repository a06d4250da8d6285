"""What every part of the running program reports: counters and heartbeats."""
