"""The only place with widgets: one view a lesson, all on one small base."""
