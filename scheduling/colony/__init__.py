"""A small colony's account: its bees, its brood and its food, day by day from make-up."""
