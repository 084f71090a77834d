"""Notebooks to try the page with; none of them is a lesson."""

import nbformat
from nbformat.v4 import new_code_cell, new_markdown_cell, new_notebook, new_output

START = (
    '<button data-commandlinker-command="notebook:run-all-cells" '
    'data-commandlinker-args="{}">▶ Start</button>'
)
# A slider of ipywidgets, a button of our own, and a file that proves it ran.
_CONTROLS = """\
import anywidget, ipywidgets, pathlib, traitlets
pathlib.Path("ran.txt").write_text("ran")

class Counter(anywidget.AnyWidget):
    _esm = '''export default { render({ model, el }) {
      const button = document.createElement("button");
      button.className = "scratch-counter";
      const show = () => { button.textContent = "pressed " + model.get("count"); };
      button.addEventListener("click", () => {
        model.set("count", model.get("count") + 1);
        model.save_changes();
      });
      model.on("change:count", show);
      show();
      el.append(button);
    } }'''
    count = traitlets.Int(0).tag(sync=True)

slider = ipywidgets.IntSlider(value=3, max=8, description="Folds")
layers = ipywidgets.Label()
def tell(_change=None):
    layers.value = f"{7 * 2**slider.value} layers"
slider.observe(tell, names="value")
tell()
ipywidgets.VBox([slider, layers, Counter()])"""


def lesson(title: str = "Scratch") -> nbformat.NotebookNode:
    """Make a page like a lesson: Start, controls, visible code, a lot of text."""
    cells = [
        new_markdown_cell(f"# {title}\n\nRead, then press.\n\n{START}"),
        new_code_cell(_CONTROLS, metadata={"jupyter": {"source_hidden": True}}),
        new_code_cell(
            "print(7 * 2**4, 'layers')",
            metadata={"tags": ["keep_output"]},
            execution_count=1,
            outputs=[new_output("stream", text="112 layers\n")],
        ),
    ]
    text = "Steel is moved, not made. " * 60
    cells += [new_markdown_cell(f"## Part {n}\n\n{text}") for n in range(4)]
    for number, cell in enumerate(cells):
        cell["id"] = f"scratch-{number}"
        if cell.cell_type == "markdown":
            cell.metadata["editable"] = False
    return new_notebook(cells=cells)


def trap() -> nbformat.NotebookNode:
    """Make a page that tries to run by itself as soon as it is opened."""
    attack = "document.title = 'caught'; window.caught = true;"
    html = f'<script>{attack}</script><img src="data:," onerror="{attack}">'
    cell = new_code_cell(
        "print('harmless')",
        metadata={"tags": ["keep_output"]},
        execution_count=1,
        outputs=[
            new_output("display_data", {"text/html": html}),
            new_output("display_data", {"application/javascript": attack}),
        ],
    )
    notebook = lesson("Trap")
    notebook.cells[0].source += f'\n\n<img src="data:," onerror="{attack}">'
    notebook.cells.insert(1, cell)
    # What an extension that runs notebooks by their own word would look for.
    notebook.metadata["autorun"] = True
    cell["id"] = "trap"
    return notebook
