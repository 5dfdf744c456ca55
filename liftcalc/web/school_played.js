// A move in steps: played once when it comes, unless less motion is wished for; then by the slider.

const PAUSE = 650; // between two steps [ms]

class Played {
  constructor(root) {
    this.find = (name) => root.querySelector(`.${name}`);
    this.slide = this.find("slide");
    this.slide.addEventListener("input", () => { this.stop(); this.paint(); });
    this.find("play").addEventListener("click", () => (this.timer ? this.stop() : this.play()));
  }

  show(data) {
    const same = this.data && this.data.name === data.name;
    this.data = data;
    this.sources = data.steps.map((s) => `data:image/svg+xml,${encodeURIComponent(s.figure)}`);
    for (const source of this.sources) new Image().src = source;
    Object.assign(this.slide, { min: 0, max: data.steps.length - 1, step: 1, ariaLabel: data.label });
    if (same) return this.paint();
    this.slide.value = 0;
    this.paint();
    if (!matchMedia("(prefers-reduced-motion: reduce)").matches) this.play();
  }

  play() {
    if (Number(this.slide.value) >= this.sources.length - 1) this.slide.value = 0;
    this.paint();
    this.timer = setInterval(() => {
      this.slide.value = Number(this.slide.value) + 1;
      this.paint();
      if (Number(this.slide.value) >= this.sources.length - 1) this.stop();
    }, PAUSE);
    this.find("play").textContent = this.data.pause;
  }

  stop() {
    clearInterval(this.timer);
    this.timer = 0;
    this.find("play").textContent = this.data.play;
  }

  paint() {
    const at = Number(this.slide.value);
    const step = this.data.steps[at];
    const figure = this.find("figure");
    if (figure.getAttribute("src") !== this.sources[at]) figure.src = this.sources[at];
    figure.alt = step.about;
    this.find("words").textContent = step.words;
    this.find("value").textContent = step.value;
    this.slide.ariaValueText = `${step.words}: ${step.value}`;
    if (!this.timer) this.find("play").textContent = this.data.play;
  }
}

export default function ({ data, parentElement }) {
  const box = parentElement.querySelector(".box");
  if (!box.played) box.played = new Played(parentElement);
  box.played.show(data);
  return () => box.played.stop();
}
