// A picture on a canvas that is moved and zoomed. Places are in pixels of the picture.

const MOST = 12; // zoomed in: pixels of the screen for one of the picture
const LOUPE = 4; // of the magnifier, over what the picture is shown at
const bounded = (value, low, high) => Math.min(Math.max(value, low), high);

class PhotoView {
  constructor(canvas, loupe) {
    Object.assign(this, { canvas, loupe, scale: 1, x: 0, y: 0 });
  }

  /** A picture, and as much room for it as there is. */
  show(image) {
    this.image = image;
    this.size = [image.naturalWidth, image.naturalHeight];
    this.fill();
    this.whole();
  }

  fill() {
    const wide = this.canvas.parentElement.clientWidth;
    const high = Math.min((wide * this.size[1]) / this.size[0], Math.max(0.62 * window.innerHeight, 260));
    this.room = [wide, Math.round(high)];
    this.sharp = window.devicePixelRatio || 1;
    this.canvas.style.height = `${this.room[1]}px`;
    this.canvas.width = wide * this.sharp;
    this.canvas.height = this.room[1] * this.sharp;
  }

  least() {
    return Math.min(this.room[0] / this.size[0], this.room[1] / this.size[1]);
  }

  whole() {
    this.scale = this.least();
    this.hold();
  }

  /** No empty edge where the picture is larger than its room, in the middle where it is smaller. */
  hold() {
    for (const [name, k] of [["x", 0], ["y", 1]]) {
      const shown = this.room[k] / this.scale, free = this.size[k] - shown;
      this[name] = free > 0 ? bounded(this[name], 0, free) : free / 2;
    }
  }

  toPicture([x, y]) {
    return [this.x + x / this.scale, this.y + y / this.scale];
  }

  toScreen([u, v]) {
    return [(u - this.x) * this.scale, (v - this.y) * this.scale];
  }

  /** Zoom so that what is under a place of the screen stays there. */
  zoom(by, at = [this.room[0] / 2, this.room[1] / 2]) {
    const [u, v] = this.toPicture(at);
    this.scale = bounded(this.scale * by, this.least(), MOST);
    this.x = u - at[0] / this.scale;
    this.y = v - at[1] / this.scale;
    this.hold();
  }

  move(right, down) {
    this.x -= right / this.scale;
    this.y -= down / this.scale;
    this.hold();
  }

  /** Bring a place of the picture into sight, if it is not. */
  seek(at) {
    const [x, y] = this.toScreen(at);
    if (x > 20 && y > 20 && x < this.room[0] - 20 && y < this.room[1] - 20) return;
    this.move(this.room[0] / 2 - x, this.room[1] / 2 - y);
  }

  /** The picture itself; gives the pen, in pixels of the screen. */
  paint() {
    const pen = this.canvas.getContext("2d");
    pen.setTransform(this.sharp, 0, 0, this.sharp, 0, 0);
    pen.clearRect(0, 0, ...this.room);
    pen.imageSmoothingEnabled = this.scale < 2;
    const [x, y] = this.toScreen([0, 0]);
    pen.drawImage(this.image, x, y, this.size[0] * this.scale, this.size[1] * this.scale);
    return pen;
  }

  /** The magnifier over a place, away from the finger. */
  magnify(at) {
    const side = 136, pen = this.loupe.getContext("2d");
    this.loupe.hidden = false;
    this.loupe.width = this.loupe.height = side * this.sharp;
    this.loupe.classList.toggle("right", this.toScreen(at)[0] < this.room[0] / 2);
    const scale = Math.max(LOUPE * this.scale, 1), half = side / 2 / scale;
    pen.setTransform(this.sharp, 0, 0, this.sharp, 0, 0);
    pen.drawImage(this.image, at[0] - half, at[1] - half, 2 * half, 2 * half, 0, 0, side, side);
    cross(pen, [side / 2, side / 2], side / 2);
  }

  close() {
    this.loupe.hidden = true;
  }
}

/** A cross that is seen on light and on dark. */
function cross(pen, [x, y], arm) {
  for (const [width, shade] of [[3.5, "#fff"], [1.4, "#a3123a"]]) {
    pen.lineWidth = width;
    pen.strokeStyle = shade;
    pen.beginPath();
    for (const [a, b] of [[1, 0], [-1, 0], [0, 1], [0, -1]]) {
      pen.moveTo(x + 4 * a, y + 4 * b);
      pen.lineTo(x + arm * a, y + arm * b);
    }
    pen.stroke();
  }
}
