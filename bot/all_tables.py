"""Every table there is: whoever copies or compares a whole database imports this first."""

# What is imported is known to the tables' common base.
import bot.channels.sms.concat_store
import bot.delivery.answer_limit
import bot.delivery.in_hand
import bot.delivery.message_tables
import bot.jobs.ready_mornings
import bot.monitoring
import scheduling.records.founding_codes
import scheduling.records.number_tables
import scheduling.records.weather_days
import scheduling.records.wrong_codes

__all__ = ["bot", "scheduling"]
