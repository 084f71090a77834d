"""What the hostile pages try to do, and how one sees that they did it."""

import html
import json

MARK = "TRIPPED"
# As in the break-in that was found: write a file, open a terminal, start a Python.
SCRIPT = f"""
window.tripped = (window.tripped || 0) + 1;
document.title = '{MARK}';
(() => {{
  const key = document.cookie.split('_xsrf=')[1]?.split(';')[0];
  const ask = (path, method, body) => fetch(path, {{
    method, headers: {{ 'X-XSRFToken': key }}, body: JSON.stringify(body),
  }});
  ask('/api/contents/{MARK}.txt', 'PUT', {{ type: 'file', format: 'text', content: 'x' }});
  ask('/api/terminals', 'POST', {{}});
  ask('/api/kernels', 'POST', {{ name: 'python3' }});
}})();
"""
IN_ATTRIBUTE = html.escape(SCRIPT.replace("\n", " "), quote=True)
IMAGE = f'<img src="data:," onerror="{IN_ATTRIBUTE}">'
SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" '
    f'width="90" height="30" onload="{IN_ATTRIBUTE}"><script>{SCRIPT}</script>'
    f"<foreignObject width='90' height='30'>{IMAGE}</foreignObject>"
    f'<animate attributeName="x" dur="1s" onbegin="{IN_ATTRIBUTE}"/>'
    '<a xlink:href="javascript:window.tripped=1"><text y="20">svg</text></a></svg>'
)
# KIT_TRIPWIRE is a file outside everything that the kit opens.
PYTHON = f"""\
import os
open(os.environ["KIT_TRIPWIRE"], "a").write({MARK!r} + __name__ + chr(10))
"""


def stored_models() -> dict:
    """Give the metadata of a page with controls that carry scripts."""
    anywidget = {
        "model_module": "anywidget",
        "model_name": "AnyModel",
        "model_module_version": "~0.11.*",
        "state": {
            "_esm": SCRIPT + "export default { initialize() {}, render() {} };",
            "_anywidget_id": "steel.Attack",
            "_model_module": "anywidget",
            "_model_module_version": "~0.11.*",
            "_model_name": "AnyModel",
            "_view_module": "anywidget",
            "_view_module_version": "~0.11.*",
            "_view_name": "AnyView",
        },
    }
    shown = {
        "model_module": "@jupyter-widgets/controls",
        "model_name": "HTMLModel",
        "model_module_version": "2.0.0",
        "state": {"value": IMAGE, "layout": "IPY_MODEL_room"},
    }
    room = {
        "model_module": "@jupyter-widgets/base",
        "model_name": "LayoutModel",
        "model_module_version": "2.0.0",
        "state": {},
    }
    state = {"attack": anywidget, "shown": shown, "room": room}
    kind = "application/vnd.jupyter.widget-state+json"
    return {kind: {"version_major": 2, "version_minor": 0, "state": state}}


def commands(words: str = "Next page") -> str:
    """Give buttons that would have JupyterLab do more than run the page."""
    code = f"open('{MARK}.txt', 'w').write('x')"
    wanted = {
        "terminal:create-new": {},
        "console:create": {"kernelPreference": {"name": "python3"}},
        "console:inject": {"path": "commands.ipynb", "code": code},
        "docmanager:delete-file": {},
        "notebook:restart-run-all": {},
        "notebook:run-all-above": {},
        "apputils:change-theme": {"theme": "JupyterLab Dark"},
    }
    return "\n\n".join(
        f'<button class="try" data-commandlinker-command="{command}" '
        f"data-commandlinker-args='{json.dumps(arguments)}'>{words}</button>"
        for command, arguments in wanted.items()
    )
