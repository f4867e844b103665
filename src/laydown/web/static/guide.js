// The live view: shows the server's screen, takes taps, and goes on along the way ahead when the server is away.

import { anchor, walk } from "./ahead.js";
import { Countdown } from "./countdown.js";
import { keepAwake, keepForOffline } from "./device.js";
import { Notices } from "./notices.js";
import { Sound } from "./sound.js";
import { Refused, TapQueue } from "./taps.js";

const AWAKE_MS = 3000;
const ASLEEP_MS = 60000;

class Live {
  constructor(page) {
    const { session, stateAddress, aheadAddress, tapsAddress, token } = page.dataset;
    Object.assign(this, { page, session, stateAddress, aheadAddress });
    this.stage = page.querySelector("[data-stage]");
    this.notices = new Notices(page);
    this.sound = new Sound();
    this.skew_ms = Number(localStorage.getItem("laydown-skew") ?? 0);
    const clock = () => Date.now() + this.skew_ms;
    this.queue = new TapQueue(session, { address: tapsAddress, token, clock });
    this.countdown = new Countdown(this.stage, {
      clock,
      turned: (state, element, first) => this.#turn(state, element, first),
      second: (left, element) => this.#sounds(left, element),
    });
  }

  async start() {
    await this.queue.open();
    this.notices.kept(this.queue.kept);
    document.addEventListener("click", (event) => this.#click(event));
    document.addEventListener("keydown", (event) => this.#key(event));
    document.addEventListener("visibilitychange", () => document.hidden || this.poll());
    window.addEventListener("online", () => this.poll());
    this.countdown.start();
    await this.poll();
    this.page.dataset.ready = "yes";
    keepForOffline(this.page, (kept) => this.notices.cached(kept));
    keepAwake((works) => this.notices.awake(works));
  }

  async tap(event) {
    this.sound.wake();
    await this.queue.keep(event);
    this.page.dataset.synced = "no";
    await this.#show();
    await this.#deliver();
  }

  async poll() {
    clearTimeout(this.timer);
    await this.#deliver();
    try {
      const response = await fetch(this.stateAddress, { headers: { accept: "application/json" } });
      if (!response.ok) throw new Error(`the server answered ${response.status}`);
      const old = response.headers.get("x-laydown-from") === "cache";
      await this.#accept(await response.json(), old);
      if (!old) await this.#lookAhead();
    } catch {
      this.notices.network(false);
      await this.#show();
    }
    this.timer = setTimeout(() => this.poll(), document.hidden ? ASLEEP_MS : AWAKE_MS);
  }

  async #deliver() {
    try {
      const answer = await this.queue.send();
      if (answer) await this.#accept(answer.state, false);
      const left = await this.queue.waiting();
      this.page.dataset.synced = left.length === 0 ? "yes" : "no";
      this.notices.waiting(left.length);
    } catch (error) {
      this.notices.waiting((await this.queue.waiting()).length);
      if (error instanceof Refused) this.notices.refused(error.message);
      else this.notices.network(false);
    }
  }

  async #accept(state, old) {
    this.notices.network(!old);
    if (this.state && state.version < this.state.version) return; // an answer overtaken by a later one
    if (!old) {
      this.skew_ms = state.now_ms - Date.now();
      localStorage.setItem("laydown-skew", String(this.skew_ms));
      this.notices.saved(state.saved);
    }
    this.state = state;
    await this.#show();
  }

  async #lookAhead() {
    if (this.prepared === this.state.version) return;
    const response = await fetch(this.aheadAddress);
    if (!response.ok) return;
    this.ahead = await response.json();
    this.prepared = this.ahead.version;
  }

  // Shows the server's screen, or the prepared one that the waiting taps lead to.
  async #show() {
    if (!this.state) return;
    const waiting = await this.queue.waiting();
    const { node, arrivals, known } = walk(this.ahead, this.state.node, waiting);
    this.notices.stuck(!known);
    const html = waiting.length === 0 || node === this.state.node ? this.state.html : this.ahead.nodes[node].html;
    const mark = `${html}${JSON.stringify(arrivals)}`;
    if (mark === this.painted) return;
    this.painted = mark;
    const focused = this.stage.contains(document.activeElement) ? document.activeElement.dataset.tap : null;
    this.stage.innerHTML = html;
    anchor(this.stage, arrivals);
    this.page.dataset.node = node;
    this.countdown.restart();
    this.notices.say(this.stage.querySelector("[data-say]")?.textContent ?? "");
    if (focused !== null) this.#focus(focused);
  }

  #focus(tap) {
    const same = [...this.stage.querySelectorAll("[data-tap]")].find((button) => button.dataset.tap === tap);
    (same ?? this.stage.querySelector("[data-main-button]"))?.focus({ preventScroll: true });
  }

  #click(event) {
    const button = event.target.closest("[data-tap]");
    if (button && button.getAttribute("aria-disabled") !== "true") this.tap(JSON.parse(button.dataset.tap));
  }

  // Enter is the main button, U undoes, 1 to 9 are the plates.
  #key(event) {
    if (event.target.closest("button, a, input, summary, dialog") && event.key === "Enter") return;
    if (event.target.closest("input") || event.ctrlKey || event.metaKey || event.altKey) return;
    const button = this.stage.querySelector(`[data-key~="${CSS.escape(event.key.toLowerCase())}"]`);
    if (!button) return;
    event.preventDefault();
    button.click();
  }

  #turn(state, element, first) {
    if (!("main" in element.dataset)) return;
    const screen = element.closest("[data-tone]");
    screen.dataset.tone = state;
    if (first) return;
    const words = screen.querySelector(`[data-when="${state}"] [data-say]`)?.textContent ?? "";
    this.notices.say(words, state === "late");
    if (state === "late") this.sound.count(3, words);
  }

  #sounds(left, element) {
    const half = Math.round((Number(element.dataset.deadline) - Number(element.dataset.from)) / 2000);
    if (left === 10) this.sound.count(2, "ten seconds");
    else if (half > 20 && left === half) this.sound.count(1, "half");
  }
}

const page = document.querySelector("[data-guide]");
if (page) new Live(page).start();
