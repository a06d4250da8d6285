"""The ticks that wake the program; the database decides what is due."""
