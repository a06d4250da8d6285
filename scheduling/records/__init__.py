"""The database: crews, people, yards and the log of entries."""
