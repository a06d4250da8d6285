"""Every text a person sees."""
