// Points of a machine are asked for one by one and clicked in a picture. The picture stays in this
// window; only where it was clicked, and its size, are told. Stands below photo_view.js.

const HOLD = 260; // until a finger that rests opens the magnifier [ms]
const STILL = 8; // so far a finger may stray and it is still a tap [px]
const NEAR = 20; // from a mark, to take it and not the picture [px]
const REST = 300; // after the last click, until it is told [ms]

class PhotoWidget {
  constructor(root) {
    this.find = (name) => root.querySelector(`.${name}`);
    this.file = root.querySelector("input");
    this.select = root.querySelector("select");
    this.view = new PhotoView(this.find("view"), this.find("loupe"));
    this.pointers = new Map();
    this.marks = [];
    this.round = 0;
    this.at = 0;
    this.file.addEventListener("change", () => this.choose(this.file.files[0]));
    this.select.addEventListener("change", () => this.ask(this.select.selectedIndex));
    for (const [name, act] of Object.entries({
      undo: () => this.undo(), skip: () => this.ask(this.at + 1), again: () => this.again(),
      nearer: () => this.zoom(1.6), farther: () => this.zoom(1 / 1.6), whole: () => this.zoom(0),
    })) this.find(name).addEventListener("click", act);
    const canvas = this.find("view");
    for (const [name, act] of Object.entries({
      pointerdown: this.down, pointermove: this.moved, pointerup: this.up, pointercancel: this.lost,
      keydown: this.key, wheel: this.wheel,
    })) canvas.addEventListener(name, (event) => this.view.image && act.call(this, event), { passive: false });
    this.resized = () => this.view.image && (this.view.fill(), this.view.zoom(1), this.draw());
  }

  // ---- what comes from the page

  show(data, tell) {
    const first = !this.data, drawing = this.data?.guide !== data.guide;
    Object.assign(this, { data, tell });
    window.addEventListener("resize", this.resized);
    const { words } = data;
    for (const name of ["undo", "skip", "again", "private"]) this.find(name).textContent = words[name];
    for (const name of ["nearer", "farther", "whole"]) this.find(name).ariaLabel = words[name];
    this.find("view").ariaLabel = words.picture;
    this.find("how").textContent = matchMedia("(pointer: coarse)").matches ? words.touch : words.mouse;
    if (drawing) this.find("guide").querySelector("img").src = `data:image/svg+xml,${encodeURIComponent(data.guide)}`;
    // A page that was left and is opened again has its picture still.
    if (first && window.liftcalcPicture) {
      Object.assign(this, window.liftcalcPicture.state);
      this.adopt(window.liftcalcPicture.image);
    } else if (this.view.image) this.ask(this.at);
    else this.label(words.choose);
  }

  label(words) {
    this.find("label").textContent = words;
  }

  choose(file) {
    if (!file) return;
    const image = new Image();
    image.onload = () => {
      Object.assign(this, { marks: [], round: 0, at: 0 });
      this.adopt(image);
      this.told();
    };
    image.onerror = () => { this.find("private").textContent = this.data.words.unreadable; };
    image.src = URL.createObjectURL(file);
  }

  adopt(image) {
    for (const name of ["ask", "stage", "how"]) this.find(name).hidden = false;
    this.find("private").textContent = this.data.words.private;
    this.label(this.data.words.another);
    this.find("start").classList.add("small");
    this.view.show(image);
    this.ask(this.at);
  }

  // ---- what is asked for

  ask(number) {
    const { points, words } = this.data, { select } = this;
    this.at = bounded(number, 0, points.length);
    const point = points[this.at];
    const has = (name) => this.current().some((each) => each.point === name);
    select.replaceChildren(...points.map((each, k) => new Option(`${has(each.name) ? "✓ " : ""}${each.name}`, k, false, k === this.at)));
    if (!point) select.add(new Option(words.anew, this.at, false, true));
    select.ariaLabel = words.point;
    this.find("count").textContent = point ? `${this.at + 1} / ${points.length}` : words.done;
    this.find("look").textContent = point ? point.look : words.why;
    this.find("skip").hidden = !point;
    this.find("again").hidden = Boolean(point) || this.round > 0;
    this.find("undo").disabled = !this.current().length;
    this.guide(point);
    this.aloud(point ? `${point.name}: ${point.look}` : words.done);
    this.keep();
    this.draw();
  }

  /** Our drawing, near enough to see which pin is meant, faced as the picture is. */
  guide(point) {
    const box = this.find("guide"), image = box.querySelector("img"), { size, words } = this.data;
    box.hidden = !point;
    this.find("ask").classList.toggle("alone", !point);
    if (!point) return;
    box.ariaLabel = `${words.drawn}: ${point.name}`;
    const wide = box.clientWidth, high = box.clientHeight;
    const scale = Math.max(wide / size[0], high / size[1]) * (wide < 200 ? 1.5 : 1.15);
    const shift = (k, room) => bounded(room / 2 - point.at[k] * scale, room - size[k] * scale, 0);
    const [x, y] = [shift(0, wide), shift(1, high)];
    Object.assign(image.style, { width: `${size[0] * scale}px`, left: `${x}px`, top: `${y}px` });
    Object.assign(this.find("ring").style, { left: `${x + point.at[0] * scale}px`, top: `${y + point.at[1] * scale}px` });
    const [rear, front] = ["rear hub", "front hub"].map((name) => this.marks.find((each) => each.point === name));
    box.classList.toggle("mirrored", Boolean(rear && front && front.at[0] < rear.at[0]));
  }

  current() {
    return this.marks.filter((each) => each.round === this.round);
  }

  place(at) {
    const point = this.data.points[this.at];
    if (!point || at.some((value, k) => value < 0 || value > this.view.size[k])) return;
    this.marks = this.marks.filter((each) => each.round !== this.round || each.point !== point.name);
    this.marks.push({ point: point.name, at, round: this.round });
    this.told();
    const { points } = this.data, has = new Set(this.current().map((each) => each.point));
    let next = this.at + 1;
    while (next < points.length && has.has(points[next].name)) next += 1;
    this.ask(next);
  }

  undo() {
    const last = this.current().at(-1);
    if (!last) return;
    this.marks = this.marks.filter((each) => each !== last);
    this.told();
    this.ask(this.data.points.findIndex((each) => each.name === last.point));
  }

  /** Every point again, without sight of where it was clicked before. */
  again() {
    this.round += 1;
    this.view.whole();
    this.ask(0);
  }

  told() {
    clearTimeout(this.timer);
    const said = { size: this.view.size, clicks: this.marks.map((each) => [each.point, ...each.at]) };
    this.fitOld = true;
    this.timer = setTimeout(() => this.tell("clicks", said), REST);
  }

  keep() {
    const { marks, round, at } = this;
    window.liftcalcPicture = { image: this.view.image, state: { marks, round, at } };
  }

  aloud(text) {
    this.find("aloud").textContent = text;
  }

  // ---- what is seen

  draw() {
    if (!this.frame) this.frame = requestAnimationFrame(() => { this.frame = 0; this.paint(); });
  }

  paint() {
    const pen = this.view.paint(), { fit, lines } = this.data;
    const shown = this.current();
    const at = new Map(shown.map((each) => [each.point, this.view.toScreen(each.at)]));
    stroke(pen, lines.filter((pair) => pair.every((name) => at.has(name))).map((pair) => pair.map((name) => at.get(name))));
    const fresh = fit && fit.size.every((each, k) => each === this.view.size[k]);
    const pins = new Map((fresh ? fit.pins : []).map((each) => [each.name, each]));
    for (const [name, spot] of at) this.pin(pen, spot, pins.get(name));
    this.names(pen, at, pins);
    if (this.aim) cross(pen, this.view.toScreen(this.aim), 16);
  }

  /** A mark, and round where the fit has it what holds nine in ten. */
  pin(pen, [x, y], pin) {
    const shade = pin?.slip ? "#a3123a" : "#0b62a8";
    if (pin) {
      const [u, v] = this.view.toScreen(pin.at), [a, b] = pin.reach.map((each) => each * this.view.scale);
      pen.beginPath();
      pen.ellipse(u, v, Math.max(a, 4), Math.max(b, 4), 0, 0, 2 * Math.PI);
      pen.fillStyle = pin.slip ? "rgb(163 18 58 / .35)" : "rgb(255 255 255 / .45)";
      pen.fill();
      pen.lineWidth = 1.5;
      pen.strokeStyle = shade;
      pen.stroke();
    }
    // Once it is fitted a mark leaves its tolerance in sight.
    for (const [radius, fill] of pin ? [[2.6, "#fff"], [1.6, shade]] : [[4.5, "#fff"], [3, shade]]) {
      pen.beginPath();
      pen.arc(x, y, radius, 0, 2 * Math.PI);
      pen.fillStyle = fill;
      pen.fill();
    }
  }

  /** Names beside marks, as far as they do not lie over each other; of slips always. */
  names(pen, at, pins) {
    pen.font = "600 12px system-ui, sans-serif";
    pen.textBaseline = "middle";
    const taken = [];
    const order = [...at].sort(([a], [b]) => Boolean(pins.get(b)?.slip) - Boolean(pins.get(a)?.slip));
    for (const [name, [x, y]] of order) {
      const pin = pins.get(name);
      const words = pin ? `${pin.slip ? "✕ " : ""}${name} ${pin.off}` : name;
      const wide = pen.measureText(words).width;
      const left = x + 10 + wide > this.view.room[0] ? x - 10 - wide : x + 10;
      const box = [left - 3, y - 9, left + wide + 3, y + 9];
      const free = taken.every((each) => box[0] > each[2] || box[2] < each[0] || box[1] > each[3] || box[3] < each[1]);
      const marks = [...at.values()].every(([u, v]) => (u === x && v === y) || u < box[0] - 4 || u > box[2] + 4 || v < box[1] - 4 || v > box[3] + 4);
      if (!pin?.slip && !(free && marks)) continue;
      taken.push(box);
      pen.lineWidth = 4;
      pen.lineJoin = "round";
      pen.strokeStyle = "#fff";
      pen.strokeText(words, left, y);
      pen.fillStyle = pin?.slip ? "#a3123a" : "#14191c";
      pen.fillText(words, left, y);
    }
  }

  zoom(by) {
    if (by) this.view.zoom(by);
    else this.view.whole();
    this.draw();
  }

  // ---- hands

  spot(event) {
    const box = this.find("view").getBoundingClientRect();
    return [event.clientX - box.left, event.clientY - box.top];
  }

  down(event) {
    if (event.button > 0) return;
    event.preventDefault();
    const canvas = this.find("view"), at = this.spot(event);
    canvas.setPointerCapture(event.pointerId);
    canvas.focus({ preventScroll: true });
    this.pointers.set(event.pointerId, at);
    clearTimeout(this.holding);
    this.aim = null;
    this.view.close();
    if (this.pointers.size > 1) { this.mode = "pinch"; return; }
    Object.assign(this, { mode: "tap", start: at });
    this.taken = this.current().find((each) => apart(this.view.toScreen(each.at), at) < NEAR);
    this.before = this.taken?.at;
    if (event.pointerType !== "mouse") this.holding = setTimeout(() => this.magnified(at), HOLD);
  }

  /** A finger that rests: what is under it is shown beside it, and set where it is lifted. */
  magnified(at) {
    this.mode = "aim";
    this.taken = null;
    this.aimAt(at);
  }

  aimAt(at) {
    this.aim = this.view.toPicture(at);
    this.view.magnify(this.aim);
    this.draw();
  }

  moved(event) {
    if (!this.pointers.has(event.pointerId)) return;
    const at = this.spot(event), old = this.pointers.get(event.pointerId);
    if (this.mode === "pinch") return this.pinched(event.pointerId, at);
    this.pointers.set(event.pointerId, at);
    if (this.mode === "aim") return this.aimAt(at);
    if (this.mode === "tap") {
      if (apart(at, this.start) < STILL) return;
      clearTimeout(this.holding);
      this.mode = this.taken ? "drag" : "pan";
    }
    if (this.mode === "drag") {
      const by = at.map((each, k) => (each - this.start[k]) / this.view.scale);
      this.taken.at = this.before.map((each, k) => bounded(each + by[k], 0, this.view.size[k]));
      this.view.magnify(this.taken.at);
    } else this.view.move(at[0] - old[0], at[1] - old[1]);
    this.draw();
  }

  pinched(id, at) {
    const other = [...this.pointers].find(([each]) => each !== id)?.[1];
    const old = this.pointers.get(id);
    this.pointers.set(id, at);
    if (!other) return;
    this.view.move((at[0] - old[0]) / 2, (at[1] - old[1]) / 2);
    const middle = [(at[0] + other[0]) / 2, (at[1] + other[1]) / 2];
    this.view.zoom(apart(at, other) / Math.max(apart(old, other), 1), middle);
    this.draw();
  }

  up(event) {
    if (!this.pointers.delete(event.pointerId)) return;
    clearTimeout(this.holding);
    const { mode } = this, at = this.view.toPicture(this.spot(event));
    this.aim = null;
    this.view.close();
    if (mode === "pinch") { if (!this.pointers.size) this.mode = null; return; }
    this.mode = null;
    if (mode === "tap" || mode === "aim") this.place(at);
    else if (mode === "drag") { this.told(); this.keep(); }
    this.draw();
  }

  lost(event) {
    this.pointers.delete(event.pointerId);
    clearTimeout(this.holding);
    if (this.mode === "drag") this.taken.at = this.before;
    Object.assign(this, { mode: null, aim: null });
    this.view.close();
    this.draw();
  }

  wheel(event) {
    // A page that is scrolled past the picture is not held up by it.
    if (!event.ctrlKey && document.activeElement?.shadowRoot?.activeElement !== this.find("view") && document.activeElement !== this.find("view")) return;
    event.preventDefault();
    this.view.zoom(Math.exp(-event.deltaY / 400), this.spot(event));
    this.draw();
  }

  key(event) {
    const ways = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
    const acts = { "+": () => this.zoom(1.6), "-": () => this.zoom(1 / 1.6), "0": () => this.zoom(0), Backspace: () => this.undo() };
    const way = ways[event.key];
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (way) {
      const start = this.aim ?? this.view.toPicture(this.view.room.map((each) => each / 2));
      const by = (event.shiftKey ? 20 : 2) / this.view.scale;
      this.aim = start.map((each, k) => bounded(each + by * way[k], 0, this.view.size[k]));
      this.view.seek(this.aim);
      this.draw();
    } else if (event.key === "Enter" && this.aim) this.place(this.aim);
    else if (acts[event.key]) acts[event.key]();
    else return;
    event.preventDefault();
  }

  leave() {
    window.removeEventListener("resize", this.resized);
    cancelAnimationFrame(this.frame);
    this.frame = 0; // or it would never be painted again
  }
}

function apart(a, b) {
  return Math.hypot(a[0] - b[0], a[1] - b[1]);
}

/** Thin lines that are seen on light and on dark. */
function stroke(pen, lines) {
  for (const [width, shade] of [[3.5, "rgb(255 255 255 / .8)"], [1.5, "#0b62a8"]]) {
    pen.beginPath();
    for (const [a, b] of lines) { pen.moveTo(...a); pen.lineTo(...b); }
    pen.lineWidth = width;
    pen.strokeStyle = shade;
    pen.stroke();
  }
}

export default function ({ data, parentElement, setTriggerValue }) {
  const box = parentElement.querySelector(".photo");
  if (!box.widget) box.widget = new PhotoWidget(parentElement);
  box.widget.show(data, setTriggerValue);
  return () => box.widget.leave();
}
