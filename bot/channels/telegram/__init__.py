"""Telegram: long polling of our own, so that nothing fetched is lost in a crash."""

from bot.channels.telegram.channel import TelegramChannel
from bot.channels.telegram.incoming import CHANNEL_NAME
from bot.channels.telegram.patience import Patience

__all__ = ["CHANNEL_NAME", "Patience", "TelegramChannel"]
