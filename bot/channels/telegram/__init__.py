"""Telegram: long polling of our own, so that nothing fetched is lost in a crash."""

from bot.channels.telegram.channel import TelegramChannel
from bot.channels.telegram.retry import Retry
from bot.channels.telegram.telegram_incoming import CHANNEL_NAME

__all__ = ["CHANNEL_NAME", "Retry", "TelegramChannel"]
