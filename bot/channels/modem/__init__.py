"""Text messages through a USB modem, kept by Gammu's message daemon in folders."""
