"""What somebody wrote in an e-mail, without what mail programs put around it."""

import re
from email.message import EmailMessage
from html.parser import HTMLParser

LONGEST = 10_000
"""Letters that are looked at."""

_ENDS = (
    re.compile(r"^>"),
    re.compile(r"^-- ?$"),
    re.compile(r"^_{5,}$"),
    re.compile(r"^-{2,} ?(Original|Forwarded) ", re.IGNORECASE),
    re.compile(r"^(On|Am|Le|El|Il|Op|Em|Den) .{5,200}(wrote|schrieb|a écrit|escribió|ha scritto|"
               r"schreef|escreveu|skrev)\b.*:?$", re.IGNORECASE),
    re.compile(r"^From: .+@", re.IGNORECASE),
    re.compile(r"^Sent from my ", re.IGNORECASE),
)  # fmt: skip
"""Lines from which on it is no longer the writer's own words: the quoted letter, a signature."""


def words_of(mail: EmailMessage) -> str:
    """Give the writer's own words; empty if there are none."""
    body = mail.get_body(preferencelist=("plain", "html"))
    if body is None:
        return ""
    try:
        text = str(body.get_content())[: LONGEST * 4]
    except (LookupError, ValueError, KeyError):
        return ""
    if body.get_content_subtype() == "html":
        text = _without_tags(text)
    return _own(text)[:LONGEST]


def _own(text: str) -> str:
    kept: list[str] = []
    for line in text.splitlines():
        if any(end.search(line.strip()) for end in _ENDS):
            break
        kept.append(line.rstrip())
    return "\n".join(kept).strip()


class _Text(HTMLParser):
    """Collects words; a block begins a line, and a quotation is marked as one."""

    _BLOCKS = frozenset({"br", "p", "div", "tr", "li", "blockquote"})
    _HIDDEN = frozenset({"style", "script", "head", "title"})

    def __init__(self) -> None:
        super().__init__()
        self.said: list[str] = []
        self._hidden = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:  # noqa: ARG002
        """Begin a line at a block."""
        self._hidden += tag in self._HIDDEN
        if tag in self._BLOCKS:
            self.said.append("\n>" if tag == "blockquote" else "\n")

    def handle_endtag(self, tag: str) -> None:
        """Show what follows a hidden piece."""
        self._hidden -= tag in self._HIDDEN and self._hidden > 0

    def handle_data(self, data: str) -> None:
        """Keep words."""
        if not self._hidden:
            self.said.append(data.replace("\n", " "))


def _without_tags(markup: str) -> str:
    text = _Text()
    text.feed(markup)
    text.close()
    lines = (" ".join(line.split()) for line in "".join(text.said).split("\n"))
    return "\n".join(lines)
