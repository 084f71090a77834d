"""Printed pages, read back."""

import re

from pypdf import PdfReader

from kit.classroom.paper.page import bind

# What somebody types in a terminal, who holds but a sheet or a telephone.
COMMAND = re.compile(
    r"\bpython3? -m\b|\bpy -m\b|\.venv\b|\bpip install\b|(?<![\w-])--[a-z]\w+"
)


def read(pages, tmp_path):
    """Bind pages and read the file back: its pages."""
    return PdfReader(bind(pages, tmp_path / "pages.pdf", "Pages")).pages


def words(*pages):
    """Give the text of pages that were read, without line breaks."""
    return " ".join(" ".join(page.extract_text().split()) for page in pages)
