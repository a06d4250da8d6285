"""What is measured, and the plain ways it is measured against."""
