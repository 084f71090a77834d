"""What heat does to the metal of a billet: what wanders, what turns hard, what is lost."""
