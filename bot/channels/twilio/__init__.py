"""Text messages through Twilio: its message API, and its notices over HTTP."""
