"""Telling the log what happened: an event's name and its facts, never anybody's words."""

import logging

import structlog
from structlog.stdlib import BoundLogger, filter_by_level, render_to_log_kwargs


def log_of(name: str) -> BoundLogger:
    """Make the log of a module; its events are ``log.info("sent", channel="telegram")``.

    An event's name is a fixed text. Facts are given beside it, and only those that
    ``bot.log_formatter`` knows to be harmless are ever shown.
    """
    log: BoundLogger = structlog.wrap_logger(
        logging.getLogger(name),
        processors=[filter_by_level, render_to_log_kwargs],
        wrapper_class=BoundLogger,
        cache_logger_on_first_use=True,
    )
    return log
