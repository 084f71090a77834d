// A loupe: what lies under the pointer, or under the cross that arrow keys move, with
// every pixel of the photograph large. Put before picture.js, which uses it.

function lookCloser({ model, image, frame }) {
  const WIDE = 200; // pixels of the screen; as look.css has it
  const TIMES = 5; // pixels of the screen for one of the photograph
  const glass = document.createElement("canvas");
  glass.className = "kit-loupe";
  glass.width = glass.height = WIDE;
  glass.hidden = true;
  glass.setAttribute("aria-hidden", "true"); // what it shows cannot be put into words
  frame.append(glass);
  const photo = new Image();
  const pen = glass.getContext("2d");

  function newPhoto() {
    URL.revokeObjectURL(photo.src);
    photo.src = URL.createObjectURL(new Blob([model.get("closer")]));
  }

  // Of the frame, that one pixel of the photograph takes across and down.
  function step() {
    const [left, top, right, low] = model.get("lies");
    return [(right - left) / photo.naturalWidth, (low - top) / photo.naturalHeight];
  }

  let last = null; // where it looks
  function look({ x, y }) {
    last = { x, y };
    const [left, top, right, low] = model.get("lies");
    glass.hidden = !(photo.naturalWidth && left <= x && x <= right && top <= y && y <= low);
    if (glass.hidden) return;
    const [across, down] = step();
    const half = WIDE / TIMES / 2;
    pen.fillStyle = "#fff";
    pen.fillRect(0, 0, WIDE, WIDE);
    pen.imageSmoothingEnabled = false;
    const from = [(x - left) / across - half, (y - top) / down - half];
    pen.drawImage(photo, ...from, 2 * half, 2 * half, 0, 0, WIDE, WIDE);
    for (const [ink, width] of [["#fff", 3], ["#000", 1]]) {
      pen.strokeStyle = ink;
      pen.lineWidth = width;
      pen.beginPath();
      for (const [begin, end] of [[0, 0.44], [0.56, 1]]) {
        pen.moveTo(begin * WIDE, WIDE / 2);
        pen.lineTo(end * WIDE, WIDE / 2);
        pen.moveTo(WIDE / 2, begin * WIDE);
        pen.lineTo(WIDE / 2, end * WIDE);
      }
      pen.stroke();
    }
    pen.font = "bold 16px sans-serif";
    for (const [column, row, name] of model.get("marks")) {
      const [left, top] = [(column - from[0]) * TIMES, (row - from[1]) * TIMES];
      for (const [ink, width] of [["#fff", 6], ["#0b5563", 3]]) {
        pen.strokeStyle = pen.fillStyle = ink;
        pen.lineWidth = width;
        pen.beginPath();
        pen.arc(left, top, 9, 0, 2 * Math.PI);
        pen.stroke();
        if (width > 3) pen.strokeText(name, left + 13, top - 9);
      }
      pen.fillText(name, left + 13, top - 9);
    }
    const aside = x < 0.5 ? "auto 8px" : "8px auto";
    [glass.style.left, glass.style.right] = aside.split(" ");
  }

  image.addEventListener("pointermove", (event) => {
    const box = image.getBoundingClientRect();
    look({
      x: (event.clientX - box.left) / box.width,
      y: (event.clientY - box.top) / box.height,
    });
  });
  image.addEventListener("pointerleave", () => (glass.hidden = true));
  image.addEventListener("blur", () => (glass.hidden = true));
  model.on("change:closer", newPhoto);
  model.on("change:marks", () => glass.hidden || look(last));
  newPhoto();
  return { step, look };
}
