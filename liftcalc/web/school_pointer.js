// A mark that is dragged along a drawing, with mouse, finger or keys. It knows no answer: when it
// is let go its place is told once, in metres.

class Pointer {
  constructor(root) {
    this.find = (name) => root.querySelector(`.${name}`);
    this.slide = this.find("slide");
    this.slide.addEventListener("input", () => this.paint());
    this.slide.addEventListener("change", () => this.told());
    const stage = this.find("stage");
    const move = (event) => {
      const { left, width } = stage.getBoundingClientRect();
      this.slide.value = ((event.clientX - left) / width - this.data.start) / this.data.metre;
      this.paint();
    };
    stage.addEventListener("pointerdown", (event) => {
      stage.setPointerCapture(event.pointerId);
      move(event);
    });
    stage.addEventListener("pointermove", (event) => {
      if (stage.hasPointerCapture(event.pointerId)) move(event);
    });
    stage.addEventListener("pointerup", () => this.told());
  }

  show(data, tell) {
    Object.assign(this, { data, tell });
    this.find("figure").src = `data:image/svg+xml,${encodeURIComponent(data.figure)}`;
    this.find("figure").alt = data.about;
    Object.assign(this.slide, { min: 0, max: data.high, step: 0.01, ariaLabel: data.label });
    // Outward is to the left on a back end: the slider goes the same way.
    this.slide.style.direction = data.metre < 0 ? "rtl" : "ltr";
    this.slide.value = data.at;
    this.paint();
  }

  paint() {
    const { start, metre, by, unit } = this.data;
    const at = Number(this.slide.value);
    this.find("mark").style.left = `${100 * (start + metre * at)}%`;
    const words = `${(at / by).toFixed(2)}\u00a0${unit}`;
    this.find("said").textContent = words;
    this.slide.ariaValueText = words;
  }

  told() {
    this.tell("place", Number(this.slide.value));
  }
}

export default function ({ data, parentElement, setTriggerValue }) {
  const box = parentElement.querySelector(".box");
  if (!box.pointer) box.pointer = new Pointer(parentElement);
  box.pointer.show(data, setTriggerValue);
}
