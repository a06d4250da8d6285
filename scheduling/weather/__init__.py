"""Flying weather: on which days, and for how many hours, a queen could fly to mate."""
