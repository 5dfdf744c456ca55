// Where a hook can be on a drawing, the loads that hold there, and what follows it. Loads are looked
// up, never interpolated: the value of a cell holds anywhere inside it.

const CM = 0.01, HALF_DEGREE = Math.PI / 360;
const STEP = 0.05, TURN = Math.PI / 90, LEAP = 5; // of the arrow keys [m, rad], and with shift

const SVG = "http://www.w3.org/2000/svg";

const clamp = (x, low, high) => Math.max(low, Math.min(high, x));
const rounded = (x, to) => Math.round(x / to) * to;
const cellOf = (edge, x) => Math.floor((x - edge.from) / edge.size + 1e-9);
const onGround = (grid, cell) => grid.low[cell] === "1";
const endOf = (edge) => edge.from + edge.size * edge.count;
const line = (spots) => spots.map(([x, y]) => `${x.toFixed(1)},${y.toFixed(1)}`).join(" ");
const set = (element, values) => {
  for (const [name, value] of Object.entries(values)) element.setAttribute(name, value);
};
const part = (parent, kind, name, values = {}) => {
  const made = document.createElementNS(SVG, kind);
  set(made, { class: name, ...values });
  return parent.appendChild(made);
};

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

  onGround(cell) {
    return onGround(this, cell);
  }

  /**
   * Segments round all places where the log is off the ground and the load is enough: through
   * nodes, each the least cell round it.
   */
  limit(needed) {
    const [rows, columns] = this.edges;
    const load = (i, j) => {
      if (i < 0 || j < 0 || i >= rows.count || j >= columns.count) return -Infinity;
      const cell = i * columns.count + j;
      return this.says[cell] < 0 || this.onGround(cell) ? -Infinity : this.loads[cell];
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

  onGround(cell) {
    return onGround(this, cell);
  }

  limit(needed) {
    const [edge] = this.edges;
    const found = [];
    for (let i = 0; i < edge.count; i++) {
      if (this.says[i] < 0 || this.loads[i] < needed || this.onGround(i)) continue;
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
class Preview {
  constructor(layer, data, place) {
    Object.assign(this, data.preview, { place, frame: data.frame });
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
