"""Files handed to a page as the browser does it."""

import datetime as dt


def uploaded(page, content, name="a.json"):
    """Upload bytes to a page with a file upload."""
    now = dt.datetime.now(tz=dt.timezone.utc)
    about = {"type": "application/octet-stream", "last_modified": now, "name": name}
    page.upload.value = ({**about, "content": content, "size": len(content)},)
