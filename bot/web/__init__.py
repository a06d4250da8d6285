"""What the program answers over HTTP, when that is switched on."""
