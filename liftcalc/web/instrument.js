// The hook on a drawing, taken with mouse, finger or keys. Loads are looked up, never interpolated:
// the value of a cell holds anywhere inside it, and the model is asked when the hook is let go.

const CM = 0.01, HALF_DEGREE = Math.PI / 360;
const STEP = 0.05, TURN = Math.PI / 90, LEAP = 5; // of the arrow keys [m, rad], and with shift
const PAUSE = 600; // after the last key, until the hook counts as let go [ms]
const AWAY = 34; // from the hook to the words over it [drawing units]
const SPACE = "\u00a0"; // as the other figures are written
const SVG = "http://www.w3.org/2000/svg";

const clamp = (x, low, high) => Math.max(low, Math.min(high, x));
const rounded = (x, to) => Math.round(x / to) * to;
const cellOf = (edge, x) => Math.floor((x - edge.from) / edge.size + 1e-9);
const endOf = (edge) => edge.from + edge.size * edge.count;

/** Places of the back end: reach with height (side), or with slew (plan). */
class Plane {
  constructor(data) {
    Object.assign(this, data.frame, data.grid);
    this.plan = data.view === "plan";
    this.names = ["reach", this.plan ? "slew" : "height"];
    this.words = data.words;
  }

  toDrawing([reach, other]) {
    const out = reach * this.scale;
    return this.plan
      ? [this.x - out * Math.cos(other), this.y - out * Math.sin(other)]
      : [this.x + this.sign * out, this.y - other * this.scale];
  }

  toPlace([x, y]) {
    const right = (x - this.x) / this.scale, up = (this.y - y) / this.scale;
    return this.plan
      ? [Math.hypot(right, up), Math.atan2(up, -right)]
      : [this.sign * right, up];
  }

  stepped([reach, other], [right, up], leap) {
    const step = (this.plan ? TURN : STEP) * leap;
    return [reach + this.sign * right * STEP * leap, other + up * step];
  }

  /** The place itself where it can be reached, or the nearest that can, and why not the other. */
  held(place) {
    const at = [rounded(place[0], CM), rounded(place[1], this.plan ? HALF_DEGREE : CM)];
    const [rows, columns] = this.edges;
    const i = cellOf(rows, at[0]), j = cellOf(columns, at[1]);
    const inside = i >= 0 && i < rows.count && j >= 0 && j < columns.count;
    const cell = i * columns.count + j;
    if (inside && this.says[cell] >= 0) return { at, cell, why: "" };
    return { ...this.nearest(at), why: this.why(at, i, j) };
  }

  why(at, i, j) {
    const [rows, columns] = this.edges;
    if (this.plan && (at[1] < columns.from - 1e-9 || at[1] > endOf(columns) + 1e-9)) {
      return this.words.turned;
    }
    const row = clamp(i, 0, rows.count - 1), column = clamp(j, 0, columns.count - 1);
    return this.reasons[-2 - this.says[row * columns.count + column]] ?? this.words.beyond;
  }

  nearest([reach, other]) {
    const [rows, columns] = this.edges;
    let least = Infinity, at = null, cell = -1;
    for (let i = 0; i < rows.count; i++) {
      const low = rows.from + i * rows.size;
      const p = clamp(reach, low, low + rows.size);
      const out = (reach - p) ** 2;
      if (out >= least) continue;
      for (let j = 0; j < columns.count; j++) {
        if (this.says[i * columns.count + j] < 0) continue;
        const left = columns.from + j * columns.size;
        const q = clamp(other, left, left + columns.size);
        const far = out + ((other - q) * (this.plan ? p : 1)) ** 2;
        if (far < least) { least = far; at = [p, q]; cell = i * columns.count + j; }
      }
    }
    return { at, cell };
  }

  /** Segments round all places whose load is enough: through nodes, each the least cell round it. */
  limit(needed) {
    const [rows, columns] = this.edges;
    const load = (i, j) => {
      if (i < 0 || j < 0 || i >= rows.count || j >= columns.count) return -Infinity;
      const cell = i * columns.count + j;
      return this.says[cell] < 0 ? -Infinity : this.loads[cell];
    };
    const node = (i, j) => Math.min(load(i - 1, j - 1), load(i - 1, j), load(i, j - 1), load(i, j));
    const values = [];
    for (let i = 0; i <= rows.count; i++) {
      values.push(Array.from({ length: columns.count + 1 }, (_, j) => node(i, j)));
    }
    const at = (i, j) => [rows.from + i * rows.size, columns.from + j * columns.size];
    const pieces = [];
    for (let i = 0; i < rows.count; i++) {
      for (let j = 0; j < columns.count; j++) {
        const corners = [[i, j], [i + 1, j], [i + 1, j + 1], [i, j + 1]];
        const cuts = [];
        corners.forEach((a, k) => {
          const b = corners[(k + 1) % 4];
          const u = values[a[0]][a[1]], v = values[b[0]][b[1]];
          if ((u >= needed) === (v >= needed)) return;
          const [inner, outer] = u >= needed ? [a, b] : [b, a];
          const most = Math.max(u, v), least = Math.min(u, v);
          const edge = !Number.isFinite(least);
          const share = edge ? 0 : (most - needed) / (most - least);
          const [p, q] = at(...inner), [r, s] = at(...outer);
          cuts.push({ spot: this.toDrawing([p + share * (r - p), q + share * (s - q)]), edge });
        });
        for (let k = 0; k + 1 < cuts.length; k += 2) pieces.push([cuts[k], cuts[k + 1]]);
      }
    }
    return chained(pieces).map(eased);
  }
}

/** Pieces put together, end to end. */
function chained(pieces) {
  const name = ({ spot }) => spot.map((x) => x.toFixed(2)).join();
  const ends = new Map();
  const real = pieces.filter(([a, b]) => name(a) !== name(b));
  for (const piece of real) {
    for (const end of piece) ends.set(name(end), [...(ends.get(name(end)) ?? []), piece]);
  }
  const left = new Set(real);
  const grow = (chain) => {
    for (;;) {
      const last = name(chain[chain.length - 1]);
      const next = ends.get(last).find((piece) => left.has(piece));
      if (!next) return chain;
      left.delete(next);
      chain.push(name(next[0]) === last ? next[1] : next[0]);
    }
  };
  const chains = [];
  for (const piece of real) {
    if (left.delete(piece)) chains.push(grow(grow([...piece]).reverse()));
  }
  return chains;
}

/**
 * Where the arm ends the line steps from cell to cell: a mean over a few steps takes that out. A
 * whole cell that can be reached lies outside of it there, so it names nothing that cannot.
 */
function eased(chain) {
  const wide = 3, count = chain.length;
  const closed = count > 2 * wide
    && Math.hypot(...chain[0].spot.map((x, k) => x - chain[count - 1].spot[k])) < 0.05;
  return chain.map((each, k) => {
    if (!closed && (k < wide || k >= count - wide)) return each.spot;
    const near = [];
    // The first and the last of a closed line are the same.
    for (let n = -wide; n <= wide; n++) near.push(chain[(k + n + 2 * (count - 1)) % (count - 1)]);
    if (!near.every((other) => other.edge)) return each.spot;
    return [0, 1].map((axis) => near.reduce((sum, other) => sum + other.spot[axis], 0) / near.length);
  });
}

/** Places of the front end: a curve over height, the arms decide the reach. */
class Curve {
  constructor(data) {
    Object.assign(this, data.frame, data.grid);
    this.names = ["height"];
    this.words = data.words;
    this.far = data.exact.at;
  }

  reachAt(height) {
    const [edge] = this.edges;
    const i = clamp(cellOf(edge, height), 0, edge.count - 1);
    const share = (height - edge.from) / edge.size - i;
    const [a, b] = [this.reach[i], this.reach[i + 1]];
    if (a == null || b == null) return a ?? b ?? this.far.reach;
    return a + share * (b - a);
  }

  toDrawing([height]) {
    const out = height === this.far.height ? this.far.reach : this.reachAt(height);
    return [this.x + this.sign * out * this.scale, this.y - height * this.scale];
  }

  /** The height on the curve nearest to a spot: the hook goes along it. */
  toPlace([x, y]) {
    const [edge] = this.edges;
    let least = Infinity, place = [(this.y - y) / this.scale];
    for (let i = 0; i <= edge.count; i++) {
      if (this.reach[i] == null) continue;
      const height = edge.from + i * edge.size;
      const [a, b] = [this.x + this.sign * this.reach[i] * this.scale, this.y - height * this.scale];
      const far = (a - x) ** 2 + (b - y) ** 2;
      if (far < least) { least = far; place = [height]; }
    }
    const ends = [edge.from + 2 * edge.size, endOf(edge) - 2 * edge.size];
    // Past the ends of the curve the hook is pulled up or down, and told why it stays.
    const pulled = (this.y - y) / this.scale;
    if (pulled < ends[0] || pulled > ends[1]) return [pulled];
    return place;
  }

  stepped([height], [right, up], leap) {
    return [height + (right + up) * STEP * leap];
  }

  held(place) {
    const at = [rounded(place[0], CM)];
    const [edge] = this.edges;
    const i = cellOf(edge, at[0]);
    if (i >= 0 && i < edge.count && this.says[i] >= 0) return { at, cell: i, why: "" };
    let least = Infinity, found = { at, cell: -1 };
    for (let k = 0; k < edge.count; k++) {
      if (this.says[k] < 0) continue;
      const low = edge.from + k * edge.size;
      const height = clamp(at[0], low, low + edge.size);
      const far = Math.abs(at[0] - height);
      if (far < least) { least = far; found = { at: [height], cell: k }; }
    }
    const say = this.says[clamp(i, 0, edge.count - 1)];
    return { ...found, why: this.reasons[-2 - say] ?? this.words.beyond };
  }

  limit(needed) {
    const [edge] = this.edges;
    const found = [];
    for (let i = 0; i < edge.count; i++) {
      if (this.says[i] < 0 || this.loads[i] < needed) continue;
      const low = edge.from + i * edge.size;
      found.push([this.toDrawing([low]), this.toDrawing([low + edge.size])]);
    }
    return found;
  }

  track() {
    const [edge] = this.edges;
    const spots = [];
    for (let i = 0; i <= edge.count; i++) {
      if (this.reach[i] != null) spots.push(this.toDrawing([edge.from + i * edge.size]));
    }
    return spots;
  }
}

/** What follows the hook: the links of the side view, or boom and log from above. */
class Ghost {
  constructor(layer, data, place) {
    Object.assign(this, data.ghost, { place, frame: data.frame });
    if (this.kind === "none") return;
    this.tools = (this.tool ?? []).map((outline) => ({
      outline, shape: part(layer, "polygon", "tool"),
    }));
    this.sling = part(layer, "polyline", "sling");
    this.link = part(layer, "polyline", "link");
    this.core = part(layer, "polyline", "core");
    this.pins = [0, 1, 2, 3].map(() => part(layer, "circle", "pin", { r: 2.4 }));
    this.body = part(layer, this.kind === "turned" ? "polygon" : "circle", "log");
  }

  spot([out, up]) {
    const { x, y, sign, scale } = this.frame;
    return [x + sign * out * scale, y - up * scale];
  }

  follow(at) {
    if (this.kind === "none") return;
    const hook = this.place.toDrawing(at);
    if (this.kind === "turned") return this.turn(at, hook);
    const reach = at.length > 1 ? at[0] : this.place.reachAt(at[0]);
    const point = [reach, at[at.length - 1]];
    const elbow = this.turns ? [this.elbow(...point)] : [];
    const angle = this.turns ? Math.atan2(point[1] - elbow[0][1], point[0] - elbow[0][0]) : 0;
    const beside = ([u, w], turn) => {
      const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
      return this.spot([point[0] + u * cos - w * sin, point[1] + u * sin + w * cos]);
    };
    const nose = beside(this.nose, angle);
    this.draw([...[this.foot, ...elbow].map((each) => this.spot(each)), nose]);
    for (const { outline, shape } of this.tools) {
      set(shape, { points: line(outline.map((each) => beside(each, angle))) });
    }
    const centre = beside(this.log, this.hangs ? 0 : angle);
    set(this.body, { cx: centre[0], cy: centre[1], r: this.radius * this.frame.scale });
    set(this.sling, { points: this.hangs ? line([hook, centre]) : "" });
  }

  turn([reach, slew], hook) {
    const { x, y, scale } = this.frame;
    const [cos, sin] = [Math.cos(slew), Math.sin(slew)];
    this.draw([[x, y], hook]);
    const outline = this.outline.map(([out, side]) => {
      const u = reach + out;
      return [x + (-u * cos - side * sin) * scale, y - (u * sin - side * cos) * scale];
    });
    set(this.body, { points: line(outline) });
  }

  draw(spots) {
    set(this.link, { points: line(spots) });
    set(this.core, { points: line(spots) });
    this.pins.forEach((pin, k) => {
      const at = spots[k];
      pin.toggleAttribute("hidden", !at);
      if (at) set(pin, { cx: at[0], cy: at[1] });
    });
  }

  /** Where two circles round foot and hook meet, on the side to which the boom bends. */
  elbow(reach, height) {
    const [a, b] = this.links;
    const [u, w] = [reach - this.foot[0], height - this.foot[1]];
    const far = Math.hypot(u, w) || 1e-9;
    const along = (a * a - b * b + far * far) / (2 * far);
    const off = -this.bend * Math.sqrt(Math.max(0, a * a - along * along));
    return [
      this.foot[0] + (along * u - off * w) / far,
      this.foot[1] + (along * w + off * u) / far,
    ];
  }
}

const line = (spots) => spots.map(([x, y]) => `${x.toFixed(1)},${y.toFixed(1)}`).join(" ");
const set = (element, values) => {
  for (const [name, value] of Object.entries(values)) element.setAttribute(name, value);
};
const part = (parent, kind, name, values = {}) => {
  const made = document.createElementNS(SVG, kind);
  set(made, { class: name, ...values });
  return parent.appendChild(made);
};

class Instrument {
  constructor(root) {
    this.find = (name) => root.querySelector(`.${name}`);
    this.box = this.find("instrument");
    this.hook = this.find("hook");
    this.drawHook();
    const on = (name, what) => this.hook.addEventListener(name, (event) => what.call(this, event));
    on("pointerdown", this.take);
    on("pointermove", this.drag);
    on("pointerup", this.drop);
    on("pointercancel", this.back);
    on("keydown", this.press);
    on("blur", () => this.keyed && this.letGo());
  }

  drawHook() {
    const ring = part(this.hook, "svg", "grip", { viewBox: "-26 -26 52 52" });
    for (const name of ["halo", "ring"]) part(ring, "circle", name, { r: 11 });
    this.points = ["point halo", "point"].map((name) => part(ring, "path", name));
  }

  // ---- what comes from the page

  show(data, tell) {
    this.tell = tell;
    // Nobody likes a drawing that changes under the finger: it waits until the hook is let go.
    if (this.dragging || this.keyed) this.waiting = data;
    else this.adopt(data);
  }

  adopt(data) {
    const asked = this.asked;
    Object.assign(this, { data, waiting: null, asked: false });
    const [width, height] = data.size;
    const over = this.find("over");
    set(over, { viewBox: `0 0 ${width} ${height}` });
    over.replaceChildren();
    this.layer = part(over, "g", "moves");
    this.place = data.grid && (data.grid.reach ? new Curve(data) : new Plane(data));
    this.hook.toggleAttribute("hidden", !this.place);
    if (this.place) this.prepare();
    this.setFigures(data).then(() => {
      // Unless it was taken meanwhile.
      if (this.data === data && !this.dragging && !this.keyed && !this.asked) this.rest(asked);
    });
  }

  async setFigures(data) {
    const [width, height] = data.size;
    const fade = `linear-gradient(rgb(0 0 0 / .32) ${(100 * data.floor) / height}%, #000 0)`;
    this.find("bare").style.maskImage = fade; // all but notes and caution
    this.find("figure").alt = data.about;
    for (const name of ["figure", "bare"]) {
      const shown = this.find(name);
      set(shown, { width, height });
      const source = `data:image/svg+xml,${encodeURIComponent(data[name])}`;
      if (shown.getAttribute("src") === source) continue;
      const next = new Image();
      next.src = source;
      // Only when it can be painted at once, so that nothing flickers.
      await next.decode().catch(() => {});
      if (this.data === data) shown.src = source;
    }
  }

  prepare() {
    const { data, place, layer } = this;
    const exact = data.exact;
    this.home = place.names.map((name) => exact.at[name]);
    this.at = this.home;
    if (place instanceof Curve) part(layer, "polyline", "path", { points: line(place.track()) });
    const limit = place.limit(exact.needed);
    part(layer, "path", "line", { d: limit.map((each) => `M${line(each)}`).join("") });
    this.ghost = new Ghost(part(layer, "g", "ghost"), data, place);
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
    const half = 2.9 * text.length;
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
    this.figures({ ...exact, least: "" });
    this.status(this.place ? words.idle : words.still);
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
    const [width, height] = this.data.size;
    const [x, y] = this.place.toDrawing(at);
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
    this.box.classList.add("moving");
    this.box.classList.toggle("held", Boolean(this.dragging));
    this.put(this.at);
    this.ghost.follow(this.at);
    this.figures(live);
    this.say(live);
    if (this.why) this.status(`${words.out}: ${this.why}.`, true);
    else this.status(words.moving);
    if (this.keyed) {
      this.describe(`${words.least} ${live.allowed}. ${live.verdict}. ${words.first}: ${live.first}.`);
      this.aloud(this.why ? `${words.out}: ${this.why}.` : "");
    }
  }

  /** What is sure at the hook: the least of its cell. */
  live() {
    const { grid, exact, words, verdicts } = this.data;
    const kilograms = grid.loads[this.cell];
    const left = kilograms - exact.rigging;
    let face = "ok";
    if (!(kilograms > 0) || !(kilograms >= exact.needed)) face = "no";
    else if (!((exact.factor * exact.planning) / left <= exact.close)) face = "close";
    return {
      face, kilograms, least: words.least,
      verdict: kilograms > 0 ? verdicts[face] : verdicts.nothing,
      allowed: this.mass(kilograms),
      heaviest: this.mass(Math.max(0, left / exact.factor)),
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
    const half = 2.45 * this.where.textContent.length + 4;
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
    return `${whole} ${unit}`;
  }

  length(metres) {
    const { by, unit } = this.data.units.length;
    return `${(metres / by).toFixed(2)} ${unit}`;
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
    clearTimeout(this.timer);
    cancelAnimationFrame(this.frame);
  }
}

export default function ({ data, parentElement, setTriggerValue }) {
  const box = parentElement.querySelector(".instrument");
  if (!box.instrument) box.instrument = new Instrument(parentElement);
  box.instrument.show(data, setTriggerValue);
  return () => box.instrument.leave();
}
