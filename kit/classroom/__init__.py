"""Homework, paper, films and the show table: what a lesson becomes for a class."""
