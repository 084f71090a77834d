"""From the rack: planning a billet, measuring one on a photograph."""
