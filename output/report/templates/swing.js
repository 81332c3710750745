"use strict";

// Makes every rig of the page swing. A scene has the angles of all pendulums at
// even times, worked out beforehand; this script puts the parts in their places
// and draws the line. Lengths in mm, x right, y up, angles anticlockwise; only
// what is written into the pictures has y down.

const degrees = 180 / Math.PI;
const framesEach = 0.04; // s between two places of the pen
const chunkPlaces = 400; // places in one path: the paths before the last never change
const wall = { x: 0, y: 0, turn: 0 };

// decode turns text in base 64 for addresses into angles, a row a pendulum.
function decode(text, rows, turn) {
  const raw = atob(text.replace(/-/g, "+").replace(/_/g, "/"));
  const view = new DataView(Uint8Array.from(raw, (c) => c.charCodeAt(0)).buffer);
  const count = view.byteLength / 2 / rows;
  return Array.from({ length: rows }, (_, row) =>
    Float64Array.from({ length: count }, (_, k) => view.getInt16(2 * (row * count + k), true) * turn / 32767));
}

// between is a smooth curve through even samples, at sample number k + part.
function between(samples, k, part) {
  const at = (n) => samples[Math.min(Math.max(n, 0), samples.length - 1)];
  const [a, b, c, d] = [at(k - 1), at(k), at(k + 1), at(k + 2)];
  return b + part / 2 * (c - a + part * (2 * a - 5 * b + 4 * c - d + part * (3 * (b - c) + d - a)));
}

// spun is a point of a frame, seen from the wall.
function spun(place, x, y) {
  const c = Math.cos(place.turn), s = Math.sin(place.turn);
  return { x: place.x + c * x - s * y, y: place.y + s * x + c * y };
}

class Motion {
  constructor(chains, text) {
    Object.assign(this, chains);
    this.angles = decode(text, this.bodies.length, this.turn);
    this.lasts = this.step * (this.angles[0].length - 1);
  }

  // places puts every pendulum's frame into the wall's.
  places(time) {
    const n = Math.min(time, this.lasts) / this.step, k = Math.min(Math.floor(n), this.angles[0].length - 2);
    const turns = this.angles.map((samples) => between(samples, k, n - k)), places = [];
    const place = (i) => {
      if (i < 0) return wall;
      const [on, x, y] = this.bodies[i];
      return places[i] ??= { ...spun(place(on), x, y), turn: turns[i] };
    };
    turns.forEach((_, i) => place(i));
    return places;
  }

  // nib is the pen's place on the paper, from its middle.
  nib(time) {
    const places = this.places(time), frame = (i) => i < 0 ? wall : places[i];
    const pen = spun(frame(this.pen[0]), this.pen[1], this.pen[2]), paper = frame(this.paper[0]);
    const c = Math.cos(paper.turn), s = Math.sin(paper.turn), x = pen.x - paper.x, y = pen.y - paper.y;
    return { x: c * x + s * y - this.paper[1], y: c * y - s * x - this.paper[2] };
  }
}

// Line is the pen's line up to a time, as paths of so many places.
class Line {
  constructor(motion, group) {
    Object.assign(this, { motion, group, drawn: [] });
  }

  path(number) {
    if (!this.drawn[number]) {
      const path = document.createElementNS(this.group.namespaceURI, "path");
      this.group.append(path);
      this.drawn[number] = { path, words: [] };
    }
    return this.drawn[number];
  }

  word(place) {
    const p = this.motion.nib(place * framesEach);
    return p.x.toFixed(2) + " " + (-p.y).toFixed(2);
  }

  // upTo draws every place up to a time and hides those after it.
  upTo(time) {
    const last = Math.floor(time / framesEach), paths = Math.floor(last / chunkPlaces);
    for (let number = 0; number <= paths; number++) this.fill(this.path(number), number, last);
    for (let number = paths + 1; number < this.drawn.length; number++) this.drawn[number].path.setAttribute("d", "");
  }

  fill(chunk, number, last) {
    const first = number * chunkPlaces, end = Math.min(last, first + chunkPlaces);
    for (let k = chunk.words.length; first + k <= end; k++) chunk.words.push(this.word(first + k));
    const shown = "M" + chunk.words.slice(0, end - first + 1).join("L");
    if (chunk.shown !== shown) chunk.path.setAttribute("d", chunk.shown = shown);
  }
}

class Scene {
  constructor(root) {
    this.motion = new Motion(JSON.parse(root.dataset.chains), root.dataset.angles);
    this.parts = [...root.querySelectorAll(".stage [data-body]")];
    this.button = root.querySelector(".play");
    this.slider = root.querySelector("input");
    this.clock = root.querySelector("output");
    this.speed = root.querySelector("select");
    this.mark = root.querySelector("[data-nib]");
    const group = root.querySelector(".stage g[id$=line]");
    this.line = this.mark && group ? new Line(this.motion, group) : null;
    this.time = 0;
    this.playing = this.stopped = false;
    this.listen(root);
    this.show();
  }

  listen(root) {
    root.querySelector(".controls").hidden = false;
    this.button.addEventListener("click", () => this.press());
    this.slider.addEventListener("input", () => { this.time = Number(this.slider.value); this.show(); });
    this.stopped = matchMedia("(prefers-reduced-motion: reduce)").matches;
    new IntersectionObserver(([seen]) => this.seen(seen.isIntersecting), { threshold: 0.3 }).observe(root.querySelector(".scene"));
  }

  // seen plays what comes into view unless the reader stopped it.
  seen(now) {
    if (now && !this.stopped) this.play();
    if (!now) this.pause();
  }

  press() {
    this.stopped = this.playing;
    if (this.playing) return this.pause();
    if (this.time >= this.motion.lasts) this.time = 0;
    this.play();
  }

  play() {
    if (this.playing || this.time >= this.motion.lasts) return;
    this.playing = true;
    this.button.textContent = "Pause";
    let before = null;
    const frame = (now) => {
      if (!this.playing) return;
      if (before !== null) this.time += Math.min(now - before, 250) / 1000 * Number(this.speed.value);
      before = now;
      this.show();
      if (this.time >= this.motion.lasts) this.pause();
      else requestAnimationFrame(frame);
    };
    requestAnimationFrame(frame);
  }

  pause() {
    this.playing = false;
    this.button.textContent = this.time >= this.motion.lasts ? "Again" : "Play";
  }

  show() {
    this.time = Math.min(this.time, this.motion.lasts);
    const places = this.motion.places(this.time);
    for (const part of this.parts) {
      const p = places[part.dataset.body];
      part.setAttribute("transform", `translate(${p.x.toFixed(2)} ${(-p.y).toFixed(2)}) rotate(${(-p.turn * degrees).toFixed(3)})`);
    }
    if (this.line) this.draw();
    this.slider.value = this.time;
    this.clock.textContent = clockWords(this.time) + " of " + clockWords(this.motion.lasts);
    this.slider.setAttribute("aria-valuetext", this.clock.textContent);
  }

  draw() {
    this.line.upTo(this.time);
    const p = this.motion.nib(this.time);
    this.mark.setAttribute("cx", p.x.toFixed(2));
    this.mark.setAttribute("cy", (-p.y).toFixed(2));
  }
}

// clockWords writes seconds as minutes and seconds.
function clockWords(seconds) {
  const whole = Math.floor(seconds + 1e-6);
  return Math.floor(whole / 60) + ":" + String(whole % 60).padStart(2, "0");
}

for (const root of document.querySelectorAll("section.swing")) new Scene(root);
