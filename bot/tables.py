"""Every table there is: whoever copies or compares a whole database imports this first."""

import bot.channels.tables
import bot.post.tables
import bot.watch.tables  # noqa: F401 - what is imported is known to the tables' common base
