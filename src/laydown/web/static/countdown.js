// Counts down to absolute times. The server says when; this only shows how long that is from now, so a tablet that
// slept or was loaded again is right at once. Elements carry:
//   data-deadline   when, in milliseconds
//   data-format     "s" whole seconds, "clock" minutes:seconds, "minutes" whole minutes
//   data-parts      where the number turns: "300:hurry 0:late" = seconds left and the state from there on

const EVERY_MS = 200;

export class Countdown {
  // `clock` gives the server's time; `turned(state, element)` is called when a state changes, `second(left)` each second.
  constructor(root, { clock, turned, second }) {
    Object.assign(this, { root, clock, turned, second });
    this.shown = new Map();
  }

  start() {
    this.tick();
    setInterval(() => this.tick(), EVERY_MS);
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
      const first = !this.shown.has(element);
      this.shown.set(element, left);
      this.#show(element, left, first);
    }
  }

  #show(element, left, first) {
    element.textContent = words(left, element.dataset.format);
    const share = element.dataset.from ? fraction(element, this.clock()) : null;
    const bar = share === null ? null : this.root.querySelector("progress[data-bar]");
    if (bar) bar.value = share;
    const state = stateAt(left, element.dataset.parts);
    if (state !== null && state !== element.dataset.state) {
      element.dataset.state = state;
      this.turned?.(state, element, first);
    }
    if ("main" in element.dataset && !first) this.second?.(left, element);
  }
}

// A deadline that has passed shows how long ago: -1 from the first second after it.
export function secondsLeft(deadline_ms, now_ms) {
  return Math.ceil((deadline_ms - now_ms) / 1000);
}

export function words(left, format) {
  const sign = left < 0 ? "\u2212" : "";
  const seconds = Math.abs(left);
  if (format === "minutes") return `${sign}${Math.ceil(seconds / 60)}`;
  if (format === "s" || (format === "auto" && seconds < 100)) return `${sign}${seconds}`;
  const [hours, minutes] = [Math.floor(seconds / 3600), Math.floor((seconds % 3600) / 60)];
  const tail = String(seconds % 60).padStart(2, "0");
  return hours > 0
    ? `${sign}${hours}:${String(minutes).padStart(2, "0")}:${tail}`
    : `${sign}${minutes}:${tail}`;
}

// The state of the lowest limit reached; null where the number has no states.
export function stateAt(left, parts) {
  if (!parts) return null;
  let state = null;
  for (const part of parts.split(" ")) {
    const [limit, name] = part.split(":");
    if (left <= Number(limit)) state = name;
  }
  return state;
}

function fraction(element, now_ms) {
  const [from, to] = [Number(element.dataset.from), Number(element.dataset.deadline)];
  return to > from ? Math.min(1, Math.max(0, (now_ms - from) / (to - from))) : 1;
}
