"""One page for a tablet on a show table: it asks, lets people grind, and tells why."""
