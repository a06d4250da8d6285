"""The log of a running program: what happened and where, never what people wrote or who they are.

A line is an event: its time, level and origin, its name, and its facts.
"""

import logging
import re
import traceback
from collections import Counter
from datetime import UTC, datetime

import structlog
from structlog.processors import JSONRenderer, LogfmtRenderer
from structlog.stdlib import BoundLogger, ProcessorFormatter, filter_by_level, render_to_log_kwargs
from structlog.typing import EventDict, Processor, WrappedLogger

from scheduling.records.engine import fault_of_database


def log_of(name: str) -> BoundLogger:
    """Make the log of a module; its events are ``log.info("sent", channel="telegram")``.

    An event's name is a fixed text. Facts are given beside it, and only those that
    ``bot.program_log`` knows to be harmless are ever shown.
    """
    log: BoundLogger = structlog.wrap_logger(
        logging.getLogger(name),
        processors=[filter_by_level, render_to_log_kwargs],
        wrapper_class=BoundLogger,
        cache_logger_on_first_use=True,
    )
    return log


FACTS = (
    *("channel", "channels", "database", "schema", "version", "number", "purpose", "result"),
    *("outcome", "attempt", "people", "person", "yard", "tick", "failures", "wait_seconds"),
    *("milliseconds", "bytes", "most", "what", "error", "said", "status", "since", "waiting"),
    *("listening", "used", "settings"),
)
"""What may be told of an event beside its name; ``said`` are a carrier's words."""

_CHATTY = ("alembic", "apscheduler", "httpx", "httpcore", "uvicorn", "asyncio", "tzlocal")
"""Libraries that tell of every tick and every fetch, some with addresses that hold the token."""

_FILLED_IN = re.compile(r"%(\(\w+\))?[-#0 +]*[\d*]*(\.\d+)?[a-zA-Z]")
"""A place in the template of a library's message that is filled with what may be anything."""

_SECRET = re.compile(r"\d+:[\w-]{16,}|[+\d][\d ()./-]{3,}\d")
"""A token, or a number long enough to be a telephone's or a chat's, in a carrier's words."""


def log_privately(level: str, as_json: bool = False) -> None:
    """Log to stderr from a level on ("INFO"), as ``name=value`` or as JSON."""
    handler = logging.StreamHandler()
    handler.setFormatter(private_formatter(as_json))
    handler.addFilter(LibraryRateLimit())
    logging.basicConfig(level=level, handlers=[handler])
    for name in _CHATTY:
        logging.getLogger(name).setLevel(logging.WARNING)


MOST_A_MINUTE = 10
"""Lines of one event of a library in a minute; a flood of requests would else fill the disk."""


class LibraryRateLimit(logging.Filter):
    """The rate limit of a library's lines: the last of an event in a minute is marked as such.

    Ours are never left out: each of them tells of one thing that was done.
    """

    def __init__(self) -> None:
        super().__init__()
        self._minute = -1
        self._told: Counter[tuple[str, str]] = Counter()

    def filter(self, record: logging.LogRecord) -> bool:
        """Tell whether a line may be written."""
        library = record.name.partition(".")[0]
        if library not in _CHATTY:
            return True
        minute = int(record.created // 60)
        if minute != self._minute:
            self._minute, self._told = minute, Counter()
        event = (record.name, str(record.msg).partition("\n")[0])
        self._told[event] += 1
        if self._told[event] == MOST_A_MINUTE:
            record.most = MOST_A_MINUTE
        return self._told[event] <= MOST_A_MINUTE


def private_formatter(as_json: bool = False) -> logging.Formatter:
    """Make what turns a record into a line."""
    shown: Processor = JSONRenderer() if as_json else LogfmtRenderer(bool_as_flag=False)
    # The template of a library's message, not what it was filled with.
    return ProcessorFormatter(
        processors=[_harmless, shown], use_get_message=False, pass_foreign_args=True
    )


def _harmless(_logger: WrappedLogger, _method: str, told: EventDict) -> EventDict:
    """Keep of a record its origin, the first line of its name, and the facts that may be told."""
    record: logging.LogRecord = told["_record"]
    line: dict[str, object] = {
        "at": datetime.fromtimestamp(record.created, UTC).isoformat(timespec="milliseconds"),
        "level": record.levelname.lower(),
        "from": record.name,
        "event": _template(told).partition("\n")[0],
    }
    told_beside = {fact: vars(record).get(fact) for fact in FACTS}
    line |= {fact: value for fact, value in told_beside.items() if value is not None}
    if "said" in line:
        line["said"] = _SECRET.sub("(withheld)", str(line["said"]))
    failed = told["exc_info"][1] if told.get("exc_info") else None
    return line if failed is None else line | _failure(failed)


def _template(told: EventDict) -> str:
    """Give a record's words, with nothing filled in that a library was given for them."""
    event = str(told["event"])
    return _FILLED_IN.sub("(withheld)", event) if told.get("positional_args") else event


def _failure(error: BaseException) -> dict[str, object]:
    """An error by its kind and the lines it came through, from the first cause on.

    Its words are left out: they repeat the value that was wrong, which is as a rule what somebody
    wrote. Only when the database itself is at fault (full, read-only, gone), its own are told.
    """
    causes = _causes(error)
    kinds = " > ".join(type(each).__name__ for each in causes)
    told: dict[str, object] = {"error": kinds}
    if said := fault_of_database(error):
        told["said"] = _SECRET.sub("(withheld)", said)
    return told | {"through": " > ".join(_way(each) for each in causes)}


def _causes(error: BaseException) -> list[BaseException]:
    before = error.__cause__ or (None if error.__suppress_context__ else error.__context__)
    return [error] if before is None else [*_causes(before), error]


def _way(error: BaseException) -> str:
    frames = traceback.extract_tb(error.__traceback__)
    return "; ".join(f"{frame.filename}:{frame.lineno} {frame.name}" for frame in frames)
