"""Draws the demo's conversation as a phone shows it: ``python3 deploy/picture.py``.

It plays the demo and draws what one person's phone shows of its beginning, so that the picture
in the README is what the program says and nothing else. Only the standard library is used.
"""

import re
import subprocess
import sys
import textwrap
from dataclasses import dataclass
from html import escape
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
PICTURE = ROOT / "fixtures" / "demo" / "conversation.svg"
OWNER = "Ada"
MESSAGES = 7

LETTERS_IN_LINE = 46
LINE_HEIGHT = 19
PADDING = 10
WIDTH = 460
BUBBLE = 390

_SAID = re.compile(r"(?P<who>\w*) *(?P<way>[<>]) (?P<text>.*)")


@dataclass
class Bubble:
    """One message: whose side it stands on, and its lines."""

    ours: bool
    lines: list[str]


def bubbles(conversation: str, who: str, most: int) -> list[Bubble]:
    """The first messages of a played conversation that ``who`` wrote or got."""
    found: list[tuple[str, Bubble]] = []
    for line in conversation.splitlines():
        said = _SAID.fullmatch(line)
        if said is None:
            continue
        if said["who"]:
            found.append((said["who"], Bubble(said["way"] == "<", [])))
        found[-1][1].lines.extend(wrapped(said["text"]))
    return [bubble for name, bubble in found if name == who][:most]


def wrapped(text: str) -> list[str]:
    """A line of text as the lines of a narrow bubble."""
    return textwrap.wrap(text, LETTERS_IN_LINE, subsequent_indent="  ") or [""]


def picture(shown: list[Bubble]) -> str:
    """The bubbles as an SVG, ours on the left and the person's on the right."""
    parts, top = [], PADDING
    for bubble in shown:
        height = len(bubble.lines) * LINE_HEIGHT + PADDING
        parts.append(_drawn(bubble, top, height))
        top += height + PADDING
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH}" height="{top}" '
        f'font-family="monospace" font-size="13">\n'
        f'<rect width="{WIDTH}" height="{top}" fill="#f4f1ea"/>\n' + "\n".join(parts) + "\n</svg>\n"
    )


def _drawn(bubble: Bubble, top: int, height: int) -> str:
    width = BUBBLE if bubble.ours else max(map(len, bubble.lines)) * 8 + 2 * PADDING
    left = PADDING if bubble.ours else WIDTH - PADDING - width
    fill = "#ffffff" if bubble.ours else "#f7e3a1"
    box = f'<rect x="{left}" y="{top}" width="{width}" height="{height}" rx="9" fill="{fill}"/>'
    lines = [
        f'<text x="{left + PADDING}" y="{top + (number + 1) * LINE_HEIGHT - 2}" '
        f'xml:space="preserve">{escape(line)}</text>'
        for number, line in enumerate(bubble.lines)
    ]
    return "\n".join([box, *lines])


def played() -> str:
    """What the demo prints when nobody is at the terminal."""
    start = [sys.executable, str(ROOT / "deploy" / "start.py"), "demo"]
    done = subprocess.run(start, stdin=subprocess.DEVNULL, capture_output=True, check=True)
    return done.stdout.decode()


if __name__ == "__main__":
    PICTURE.write_text(picture(bubbles(played(), OWNER, MESSAGES)), encoding="utf-8")
    print(f"drawn: {PICTURE.relative_to(ROOT)}")
