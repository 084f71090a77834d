"""The widgets of homework, marking, the print room and the show table."""
