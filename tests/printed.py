"""Printed pages, read back."""

from pypdf import PdfReader

from kit.classroom.paper.page import bind


def read(pages, tmp_path):
    """Bind pages and read the file back: its pages."""
    return PdfReader(bind(pages, tmp_path / "pages.pdf", "Pages")).pages


def words(*pages):
    """Give the text of pages that were read, without line breaks."""
    return " ".join(" ".join(page.extract_text().split()) for page in pages)
