"""Files handed to a page."""


def uploaded(page, content, name="a.json"):
    """Hand a file to a page with an upload."""
    page.upload.take(name, content)
