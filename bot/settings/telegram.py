"""What the owner sets for Telegram."""

from pydantic import SecretStr

from bot.settings.validators import SubjectSettings, Switch, WebAddress


class TelegramSettings(SubjectSettings):
    """``YARDBELL_TELEGRAM_...``: the bot."""

    token: SecretStr | None = None
    """The bot's token; without it Telegram is off."""
    url: WebAddress | None = None
    """Address of a Bot API server of one's own, without the "/bot" at its end."""
    webhook: Switch = False
    """Let Telegram post to our HTTP side, in place of fetching from it."""
