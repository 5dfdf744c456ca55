// The hook on a drawing, taken with mouse, finger or keys. Nothing is asked of the model while it
// moves; when it is let go, its place is told once. Stands below hook_widget_places.js.

const PAUSE = 600; // after the last key, until the hook counts as let go [ms]
const AWAY = 34; // from the hook to the words over it [drawing units]
const SPACE = "\u00a0"; // as the other figures are written

class HookWidget {
  constructor(root) {
    this.find = (name) => root.querySelector(`.${name}`);
    this.box = this.find("hook-widget");
    this.hook = this.find("hook");
    this.drawHook();
    const on = (name, what) => this.hook.addEventListener(name, (event) => what.call(this, event));
    on("pointerdown", this.take);
    on("pointermove", this.drag);
    on("pointerup", this.drop);
    on("pointercancel", this.back);
    on("keydown", this.press);
    on("blur", () => this.keyed && this.letGo());
    this.come = () => this.loads();
  }

  drawHook() {
    const ring = part(this.hook, "svg", "grip", { viewBox: "-26 -26 52 52" });
    for (const name of ["halo", "ring"]) part(ring, "circle", name, { r: 11 });
    this.points = ["point halo", "point"].map((name) => part(ring, "path", name));
  }

  // ---- what comes from the page

  show(data, tell) {
    this.tell = tell;
    window.addEventListener("liftcalc-grids", this.come);
    // Nobody likes a drawing that changes under the finger: it waits until the hook is let go.
    if (this.dragging || this.keyed) this.waiting = data;
    else this.adopt(data);
  }

  adopt(data) {
    const asked = this.asked;
    Object.assign(this, { data, waiting: null, asked: false, drawn: false });
    this.box.classList.toggle("quiet", Boolean(data.quiet));
    const [width, height] = data.size;
    const over = this.find("over");
    set(over, { viewBox: `0 0 ${width} ${height}` });
    over.replaceChildren();
    this.layer = part(over, "g", "moves");
    this.place = null;
    this.late = data.grid === "later";
    this.hook.toggleAttribute("hidden", !data.grid);
    if (this.late) this.stand();
    else this.ready();
    this.setFigure(data).then(() => {
      if (this.data !== data) return;
      this.loads();
      // Unless it was taken meanwhile.
      if (!this.dragging && !this.keyed && !this.asked) this.rest(asked);
    });
  }

  /** The loads at the hook, once they have come for this drawing. */
  loads() {
    const { data } = this, come = window.liftcalcGrids;
    if (!this.late || !this.drawn || come?.sign !== data.sign) return;
    this.late = false;
    this.data = { ...data, grid: come[data.view] };
    this.ready();
    if (this.place) this.rest(false);
  }

  ready() {
    const { data } = this;
    this.place = data.grid && (data.grid.reach ? new Curve(data) : new Plane(data));
    if (this.place) this.prepare();
  }

  /** Where it will be, though it cannot be taken yet. */
  stand() {
    const { data } = this, { at } = data.exact;
    const plane = new Plane({ ...data, grid: {} });
    this.spot(plane.toDrawing([at.reach, data.view === "plan" ? at.slew : at.height]));
  }

  async setFigure(data) {
    const [width, height] = data.size;
    const fade = `linear-gradient(rgb(0 0 0 / .32) ${(100 * data.floor) / height}%, #000 0)`;
    this.find("bare").style.maskImage = fade; // all but notes and caution
    set(this.find("bare"), { width, height });
    const source = `data:image/svg+xml,${encodeURIComponent(data.figure)}`;
    if (this.find("figure").getAttribute("src") !== source) {
      const next = new Image(width, height);
      Object.assign(next, { className: "figure", alt: data.about, src: source });
      // Only when it can be painted at once, so that nothing flickers.
      await next.decode().catch(() => {});
      if (this.data === data) this.find("figure").replaceWith(next);
    }
    this.drawn = true;
  }

  /** The same without what holds for its old place only, to be seen while the hook moves. */
  setBare() {
    const { figure, bare } = this.data;
    const drawn = figure.replace(/<\/svg>$/, `${bare}</svg>`);
    this.find("bare").src = `data:image/svg+xml,${encodeURIComponent(drawn)}`;
  }

  prepare() {
    this.setBare();
    const { data, place, layer } = this;
    const exact = data.exact;
    this.home = place.names.map((name) => exact.at[name]);
    this.at = this.home;
    if (place instanceof Curve) part(layer, "polyline", "path", { points: line(place.track()) });
    const limit = place.limit(exact.needed);
    part(layer, "path", "line", { d: limit.map((each) => `M${line(each)}`).join("") });
    this.preview = new Preview(part(layer, "g", "preview"), data, place);
    if (limit.length) this.nameLimit(limit.flat());
    this.plate = part(layer, "rect", "plate", { rx: 5, height: 34 });
    this.load = part(layer, "text", "load");
    this.where = part(layer, "text", "where");
    set(this.points[0], { d: this.arrows() });
    set(this.points[1], { d: this.arrows() });
    this.scale = Math.max(exact.needed, exact.kilograms, ...data.grid.loads) * 1.04;
    const share = exact.needed / this.scale;
    this.find("need").style.left = `${100 * share}%`;
    const needs = this.find("needs");
    needs.textContent = `${data.words.needs} ${exact.needs}`;
    needs.style.left = `${100 * share}%`;
    needs.className = `needs ${share < 0.25 ? "start" : share > 0.75 ? "end" : ""}`;
  }

  /** The line round the places for this log, named where the machine leaves room. */
  nameLimit(spots) {
    const [width] = this.data.size;
    const curve = this.place instanceof Curve;
    const text = this.data.words[curve ? "along" : "inside"];
    const half = 2.4 * text.length;
    const [x, y] = spots.reduce((a, b) => (b[1] > a[1] !== curve ? b : a));
    const at = { x: clamp(x, half, width - half), y: curve ? y - 8 : Math.min(y + 15, this.data.floor - 4) };
    part(this.layer, "text", "inside", at).textContent = text;
  }

  arrows() {
    const head = (turn) => {
      const to = (x, y) => {
        const [c, s] = [Math.cos(turn), Math.sin(turn)];
        return `${(x * c - y * s).toFixed(1)} ${(x * s + y * c).toFixed(1)}`;
      };
      return `M${to(17, -4)} L${to(21, 0)} L${to(17, 4)}`;
    };
    const ways = this.place.names.length > 1 ? [0, 1, 2, 3] : [1, 3];
    return ways.map((each) => head((each * Math.PI) / 2)).join(" ");
  }

  // ---- how it stands

  rest(asked) {
    const { exact, words } = this.data;
    this.box.classList.remove("moving", "held");
    this.find("read").style.minHeight = "";
    this.figures({ ...exact, least: "" });
    this.status(this.place || this.late ? words.idle : words.still);
    if (!this.place) return;
    this.put(this.home);
    this.describe(`${exact.allowed}. ${exact.verdict}. ${words.first}: ${exact.first}.`);
    if (asked) this.aloud(`${words.exact} ${words.allowed}: ${exact.allowed}. ${exact.verdict}.`);
  }

  figures({ face, verdict, allowed, heaviest, first, least, kilograms }) {
    const { words, marks } = this.data;
    this.box.dataset.face = face;
    this.find("mark").textContent = marks[face];
    this.find("said").textContent = verdict;
    for (const [name, value] of Object.entries({ allowed, heaviest, first })) {
      const [term, shown] = this.box.querySelectorAll(`.read .${name}`);
      if (term.textContent !== words[name]) term.textContent = words[name];
      shown.textContent = value;
      if (least && name !== "first") {
        const small = document.createElement("small");
        small.textContent = ` ${least}`;
        shown.append(small);
      }
    }
    this.find("bar").style.transform = `scaleX(${clamp(kilograms / this.scale || 0, 0, 1)})`;
  }

  status(text, out = false) {
    const status = this.find("status");
    if (status.textContent !== text) status.textContent = text;
    status.toggleAttribute("data-out", out);
  }

  aloud(text) {
    this.find("aloud").textContent = text;
  }

  describe(text) {
    const { words, exact } = this.data;
    const [edge] = this.data.grid.edges;
    const slider = {
      "aria-label": words.hook, "aria-roledescription": words.kind,
      "aria-valuemin": edge.from.toFixed(2), "aria-valuemax": endOf(edge).toFixed(2),
      "aria-valuenow": (this.at?.[0] ?? exact.at.reach).toFixed(2),
      "aria-valuetext": `${this.placeWords(this.at)}. ${words.allowed}: ${text}`,
    };
    set(this.hook, slider);
  }

  put(at) {
    this.spot(this.place.toDrawing(at));
  }

  spot([x, y]) {
    const [width, height] = this.data.size;
    this.hook.style.left = `${(100 * x) / width}%`;
    this.hook.style.top = `${(100 * y) / height}%`;
  }

  // ---- while it moves

  move(place) {
    const held = this.place.held(place);
    if (held.cell < 0) return;
    this.at = held.at;
    this.cell = held.cell;
    this.why = held.why;
    if (!this.frame) this.frame = requestAnimationFrame(() => this.paint());
  }

  paint() {
    this.frame = 0;
    if (!this.dragging && !this.keyed) return;
    const { words } = this.data;
    const live = this.live();
    if (!this.box.classList.contains("moving")) this.steady();
    this.box.classList.add("moving");
    this.box.classList.toggle("held", Boolean(this.dragging));
    this.put(this.at);
    this.preview.follow(this.at);
    this.figures(live);
    this.say(live);
    if (this.why) this.status(`${words.out}: ${this.why}.`, true);
    else this.status(this.place.onGround(this.cell) ? words.low : words.moving);
    if (this.keyed) {
      this.describe(`${words.least} ${live.allowed}. ${live.verdict}. ${words.first}: ${live.first}.`);
      this.aloud(this.why ? `${words.out}: ${this.why}.` : "");
    }
  }

  /** Shorter words must not draw the drawing up under the finger. */
  steady() {
    const read = this.find("read");
    read.style.minHeight = `${read.offsetHeight}px`;
  }

  /** What is sure at the hook: the least of its cell. */
  live() {
    const { grid, exact, words, verdicts } = this.data;
    const kilograms = grid.loads[this.cell], heaviest = grid.heaviest[this.cell];
    let face = "ok";
    if (!(kilograms > 0) || !(kilograms >= exact.needed)) face = "no";
    else if (!(exact.planning <= exact.close * heaviest)) face = "close";
    return {
      face, kilograms, least: words.least,
      verdict: kilograms > 0 ? verdicts[face] : verdicts.nothing,
      allowed: this.mass(kilograms),
      heaviest: this.mass(heaviest),
      first: grid.criteria[grid.says[this.cell]],
    };
  }

  /** The load over the hook, clear of a finger, or under it where the drawing ends. */
  say(live) {
    const [width] = this.data.size;
    const [x, y] = this.place.toDrawing(this.at);
    const top = y > AWAY + 34 ? y - AWAY - 28 : y + AWAY;
    this.load.textContent = `${this.data.marks[live.face]} ${live.allowed}`;
    this.where.textContent = this.placeWords(this.at);
    const wide = [this.where, this.load].map((each) => each.getComputedTextLength());
    const half = Math.max(...wide) / 2 + 6;
    const middle = clamp(x, half + 2, width - half - 2);
    set(this.plate, { x: middle - half, y: top, width: 2 * half });
    set(this.load, { x: middle, y: top + 16 });
    set(this.where, { x: middle, y: top + 29 });
  }

  placeWords(at) {
    const said = at.map((value, k) => {
      const name = this.place.names[k];
      if (name === "slew") return `${name} ${((value * 180) / Math.PI).toFixed(1)}°`;
      return `${name} ${this.length(value)}`;
    });
    if (at.length === 1) said.unshift(`reach ${this.length(this.place.reachAt(at[0]))}`);
    return said.join(", ").replaceAll("-", "−");
  }

  mass(kilograms) {
    const { by, unit } = this.data.units.mass;
    const whole = Math.floor(kilograms / by).toString().replace(/\B(?=(\d{3})+$)/g, SPACE);
    return whole + SPACE + unit;
  }

  length(metres) {
    const { by, unit } = this.data.units.length;
    return (metres / by).toFixed(2) + SPACE + unit;
  }

  // ---- hands

  spotOf(event) {
    const box = this.find("stage").getBoundingClientRect();
    const scale = this.data.size[0] / box.width;
    return [(event.clientX - box.left) * scale, (event.clientY - box.top) * scale];
  }

  take(event) {
    if (event.button > 0 || !this.place) return;
    this.settle();
    this.hook.setPointerCapture(event.pointerId);
    this.hook.focus({ preventScroll: true });
    event.preventDefault();
    this.dragging = true;
    const [x, y] = this.spotOf(event), [a, b] = this.place.toDrawing(this.at);
    this.offset = [a - x, b - y];
    this.start = this.at;
  }

  drag(event) {
    if (!this.dragging) return;
    const [x, y] = this.spotOf(event);
    this.move(this.place.toPlace([x + this.offset[0], y + this.offset[1]]));
  }

  drop() {
    if (this.dragging) this.letGo();
  }

  press(event) {
    const ways = {
      ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1],
      PageUp: [0, LEAP], PageDown: [0, -LEAP],
    };
    if (event.key === "Escape" && (this.dragging || this.keyed)) return this.back();
    if (event.key === "Enter" && this.keyed) return this.letGo();
    const way = ways[event.key];
    if (!way || !this.place || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    if (!this.keyed) { this.keyed = true; this.start = this.at; }
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.letGo(), PAUSE);
    this.move(this.place.stepped(this.at, way, event.shiftKey ? LEAP : 1));
  }

  settle() {
    clearTimeout(this.timer);
    this.dragging = this.keyed = false;
  }

  /** Tells the page where the hook is, once; it answers with a new drawing. */
  letGo() {
    const moved = this.at.some((value, k) => value !== this.start[k]);
    if (moved && this.frame) { cancelAnimationFrame(this.frame); this.paint(); }
    this.settle();
    if (!moved) return this.back();
    if (this.waiting) this.adopt(this.waiting);
    const point = {};
    this.place.names.forEach((name, k) => { point[name] = Number(this.at[k].toFixed(6)); });
    this.asked = true;
    this.status(this.data.words.asked);
    this.tell("point", point);
  }

  /** To where it was; nothing is asked. */
  back() {
    this.settle();
    if (this.waiting) return this.adopt(this.waiting);
    this.at = this.home;
    this.rest(false);
  }

  leave() {
    window.removeEventListener("liftcalc-grids", this.come);
    clearTimeout(this.timer);
    cancelAnimationFrame(this.frame);
    this.frame = 0; // or it would never be painted again
  }
}

export default function ({ data, parentElement, setTriggerValue }) {
  const box = parentElement.querySelector(".hook-widget");
  if (!box.widget) box.widget = new HookWidget(parentElement);
  box.widget.show(data, setTriggerValue);
  return () => box.widget.leave();
}
