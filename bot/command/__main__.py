"""The same as the yardbell command: ``python -m bot.command``."""

from bot.command.group import main

if __name__ == "__main__":
    main()
