"""A bare bot that echoes, on the library's own application: ``python -m ... URL TOKEN``."""

import sys

from telegram import Update
from telegram.ext import Application, ContextTypes, MessageHandler, filters


async def echo(update: Update, _context: ContextTypes.DEFAULT_TYPE) -> None:
    """Say the same."""
    if update.message is not None and update.message.text is not None:
        await update.message.reply_text(update.message.text)


def main(url: str, token: str) -> None:
    """Poll until told to stop."""
    application = Application.builder().token(token).base_url(f"{url}/bot").build()
    application.add_handler(MessageHandler(filters.TEXT, echo))
    application.run_polling()


if __name__ == "__main__":
    main(*sys.argv[1:])
