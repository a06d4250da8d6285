"""The menu of commands that chat programs show: each name and what it does."""

MENU = {
    "due": "What to open today",
    "tomorrow": "What comes tomorrow",
    "week": "The next seven days",
    "queens": "Queens ready to take",
    "failing": "Units that need help",
    "undo": "Take back what you last said",
    "help": "What you can type",
    "cautions": "What can hurt you",
}
