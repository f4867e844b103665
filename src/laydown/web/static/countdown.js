// Counts down to absolute times. The server says when; this only shows how long that is from now, so a tablet that
// slept or was loaded again is right at once. Elements carry data-deadline (seconds since 1970) and data-format:
// "auto" whole seconds below 100 and minutes:seconds above, "clock" minutes:seconds.

const EVERY_MS = 200;
const WHOLE_SECONDS_BELOW = 100;

export class Countdown {
  // `clock` gives the server's time in seconds; `ticked` is called at every look at it.
  constructor(root, { clock, ticked }) {
    Object.assign(this, { root, clock, ticked });
    this.shown = new Map();
  }

  start() {
    setInterval(() => {
      this.ticked();
      this.tick();
    }, EVERY_MS);
  }

  // New markup stands in the root: nothing that was shown before counts any more.
  restart() {
    this.shown.clear();
    this.tick();
  }

  tick() {
    for (const element of this.root.querySelectorAll("[data-deadline]")) {
      const left = secondsLeft(Number(element.dataset.deadline), this.clock());
      if (this.shown.get(element) === left) continue;
      this.shown.set(element, left);
      const unit = element.dataset.format === "clock" ? ` ${unitOf(left)}` : "";
      element.textContent = words(left, element.dataset.format) + unit;
      if ("main" in element.dataset) this.#around(element, left);
    }
  }

  // Unit and bar belong to the one big number.
  #around(element, left) {
    const unit = this.root.querySelector("[data-unit]");
    if (unit) unit.textContent = inSeconds(left) ? "s" : unitOf(left);
    const bar = this.root.querySelector("progress[data-bar]");
    if (bar) bar.value = gone(Number(element.dataset.from), Number(element.dataset.deadline), this.clock());
  }
}

// Counts through zero: "-1" stands from the first full second after the deadline.
export function secondsLeft(deadline_s, now_s) {
  return Math.ceil(deadline_s - now_s) + 0; // no minus zero
}

export function words(left, format) {
  const sign = left < 0 ? "\u2212" : "";
  const seconds = Math.abs(left);
  if (format === "auto" && inSeconds(left)) return `${sign}${seconds}`;
  const tail = String(seconds % 60).padStart(2, "0");
  const minutes = Math.floor(seconds / 60);
  if (minutes < 60) return `${sign}${minutes}:${tail}`;
  return `${sign}${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, "0")}`;
}

function unitOf(left) {
  return Math.abs(left) < 3600 ? "min" : "h";
}

function inSeconds(left) {
  return Math.abs(left) < WHOLE_SECONDS_BELOW;
}

function gone(from_s, to_s, now_s) {
  return to_s > from_s ? Math.min(1, Math.max(0, (now_s - from_s) / (to_s - from_s))) : 1;
}
