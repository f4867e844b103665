// The server's time on this device: all devices count to the same instants, however wrong their own clocks are.

const KEPT = "laydown-skew";
const LONG_WAY_MS = 2000;
const SAME_S = 0.3;

export class ServerClock {
  constructor() {
    this.skew_s = Number(localStorage.getItem(KEPT) ?? 0);
  }

  now() {
    return Date.now() / 1000 + this.skew_s;
  }

  // `asked` is when the question left; an answer that was long on its way says nothing about the time.
  set(now_s, asked) {
    const way = Date.now() - asked;
    const skew_s = now_s - (asked + way / 2) / 1000;
    if (way > LONG_WAY_MS || Math.abs(skew_s - this.skew_s) < SAME_S) return;
    this.skew_s = skew_s;
    localStorage.setItem(KEPT, String(skew_s));
  }
}
