"""How notebooks come from their files to the page and back, with nothing alive in them."""

import secrets
from typing import Any

from jupyter_server.services.contents.largefilemanager import AsyncLargeFileManager
from tornado.web import HTTPError
from traitlets import Dict

from kit.basics.notebook_file import file_text, is_harmless, tidy
from kit.course.pages import Whose, fingerprint, whose

# Where the page finds whose it is; the server says so, and it never reaches the file.
_MARK = "steel"
# The state of controls. JupyterLab brings them to life, with the scripts they carry,
# as soon as the page is opened, whether it is trusted or not.
_MODELS = "widgets"
_REFUSED = "{} is no notebook, or it is damaged: it was not opened and stays as it is."


class Contents(AsyncLargeFileManager):
    """JupyterLab's own way to files; a stranger's page comes without what could run."""

    own = Dict(help="the kit's own pages: see kit.course.pages").tag(config=True)

    def __init__(self, **options: Any) -> None:
        super().__init__(**options)
        # What the reader made of the kit's pages in this launch stays the kit's. The
        # seal goes with such a page to the browser and back; no file can hold it.
        self._sealed = {"whose": "own", "seal": secrets.token_hex()}
        self._saved: set[tuple[str, str]] = set()

    def whose(self, notebook: dict[str, Any], path: str) -> Whose:
        """Tell who made a page."""
        name = path.strip("/")
        found = whose(name, notebook, self.own)
        if found == "changed" and (name, fingerprint(notebook)) in self._saved:
            return "own"
        return found

    async def get(self, path: str, content: bool = True, **options: Any) -> dict[str, Any]:
        """Give what can be saved again, for pages save themselves; refuse the rest."""
        try:
            model = await super().get(path, content, **options)
            if content and model["type"] == "notebook":
                file_text(model["content"]).encode()
        except (HTTPError, UnicodeEncodeError) as fault:
            a_page = path.endswith(".ipynb") and options.get("type") in (None, "notebook")
            if not a_page or getattr(fault, "status_code", 400) != 400:
                raise
            raise HTTPError(400, _REFUSED.format(path.rpartition("/")[2])) from None
        return model

    def mark_trusted_cells(self, nb: dict[str, Any], path: str = "") -> None:
        """Make a notebook safe on its way to the page: the server calls this on reading."""
        found = self.whose(nb, path)
        nb["metadata"].pop(_MODELS, None)
        nb["metadata"][_MARK] = self._sealed if found == "own" else {"whose": found}
        # Trusted results may hold scripts that run when the page opens.
        self.notary.mark_cells(nb, found == "own" and is_harmless(nb))

    def check_and_sign(self, nb: dict[str, Any], path: str = "", **_options: bool) -> None:
        """Sign nothing: JupyterLab would, if a page has no results, and trust it then."""

    def run_pre_save_hooks(self, model: dict[str, Any], path: str, **kept: Any) -> None:
        """Tidy a page of the kit on its way to its file; leave others as they are."""
        if model.get("type") == "notebook" and model.get("content"):
            name, notebook = path.strip("/"), model["content"]
            notebook["metadata"].pop(_MODELS, None)
            mark = notebook["metadata"].pop(_MARK, None)
            if name in self.own:
                model["content"] = tidy(notebook)
                if mark == self._sealed:
                    self._saved.add((name, fingerprint(notebook)))
        super().run_pre_save_hooks(model=model, path=path, **kept)
