"""Where the weather comes from: a service over HTTP, or a file of hours."""
