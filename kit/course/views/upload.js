// A file of the reader's, handed over in pieces. Why not ipywidgets' upload: it sends the
// file as one message, and one above the server's limit (10 MiB, unless somebody raised
// it) closes the connection without a word; nothing can be uploaded afterwards.

const PIECE = 4_000_000; // bytes
const PATIENCE = 20_000; // milliseconds without an answer from the kernel

function render({ model, el }) {
  const button = document.createElement("button");
  button.type = "button";
  button.className = "kit-button";
  const chooser = document.createElement("input");
  chooser.type = "file";
  chooser.hidden = true;
  const says = document.createElement("span");
  says.className = "kit-sent";
  says.setAttribute("role", "status");
  const group = document.createElement("div");
  group.className = "kit-upload";
  group.append(button, chooser, says);
  el.append(group);
  let file = null; // the one that is under way
  let key = "";
  let silent = 0;

  function send(message, buffers = []) {
    clearTimeout(silent);
    silent = setTimeout(() => {
      file = null;
      says.textContent = "No answer came. Press Start, then choose the file again.";
    }, PATIENCE);
    model.send({ ...message, key }, undefined, buffers);
  }

  function unreadable() {
    file = null;
    clearTimeout(silent);
    says.textContent = "The browser cannot read that file. Choose it again.";
  }

  async function piece(at) {
    const mine = key;
    let bytes;
    try {
      bytes = await file.slice(at, at + PIECE).arrayBuffer();
    } catch {
      unreadable();
      return;
    }
    if (mine !== key || !file) return;
    if (bytes.byteLength) send({ at }, [bytes]);
    else unreadable(); // it has become shorter meanwhile
  }

  button.addEventListener("click", () => chooser.click());
  chooser.addEventListener("change", () => {
    file = chooser.files[0];
    if (!file) return;
    key = `${Math.random()}`; // a file chosen meanwhile takes the place of this one
    says.textContent = `Opening ${file.name} …`;
    send({ name: file.name, size: file.size });
    chooser.value = ""; // so that the same file can be chosen again
  });
  model.on("msg:custom", (answer) => {
    if (!file || answer.key !== key) return;
    clearTimeout(silent);
    if (answer.at === undefined) {
      says.textContent = answer.taken ? file.name : "";
      file = null;
    } else {
      if (answer.at) {
        const share = Math.floor((100 * answer.at) / file.size);
        says.textContent = `Opening ${file.name}: ${share} %`;
      }
      piece(answer.at);
    }
  });

  function show() {
    button.textContent = model.get("label");
    chooser.accept = model.get("accept");
  }
  for (const trait of ["label", "accept"]) model.on(`change:${trait}`, show);
  show();
}

export default { render };
