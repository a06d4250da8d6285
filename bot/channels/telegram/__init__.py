"""Telegram: long polling of our own, so that nothing fetched is lost in a crash."""
