// Draw a signature with a finger, a pen or the mouse; what is sent are the points, without when.
const box = document.getElementById("sign");
const field = document.getElementById("signature");

if (box && field) {
  const pen = box.getContext("2d");
  let strokes = [];
  let drawn = null;

  const at = (event) => {
    const frame = box.getBoundingClientRect();
    const along = (from, size, most) => Math.max(0, Math.min(most, Math.round((from / size) * most)));
    return [
      along(event.clientX - frame.left, frame.width, box.width),
      along(event.clientY - frame.top, frame.height, box.height),
    ];
  };

  const draw = () => {
    pen.clearRect(0, 0, box.width, box.height);
    pen.strokeStyle = getComputedStyle(box).color;
    pen.lineWidth = 6;
    pen.lineCap = pen.lineJoin = "round";
    for (const stroke of strokes) {
      pen.beginPath();
      pen.moveTo(stroke[0], stroke[1]);
      for (let n = 2; n < stroke.length; n += 2) pen.lineTo(stroke[n], stroke[n + 1]);
      pen.stroke();
    }
  };

  const keep = () => { field.value = JSON.stringify(strokes); };

  box.addEventListener("pointerdown", (event) => {
    event.preventDefault();
    box.setPointerCapture(event.pointerId);
    drawn = at(event);
    strokes.push(drawn);
  });
  box.addEventListener("pointermove", (event) => {
    if (!drawn) return;
    const [x, y] = at(event);
    // Nearer points tell nothing more of a hand.
    if (Math.hypot(x - drawn.at(-2), y - drawn.at(-1)) < 4) return;
    drawn.push(x, y);
    draw();
  });
  for (const end of ["pointerup", "pointercancel"]) {
    box.addEventListener(end, () => { drawn = null; draw(); keep(); });
  }
  document.getElementById("sign-clear").addEventListener("click", () => { strokes = []; draw(); keep(); });
}
