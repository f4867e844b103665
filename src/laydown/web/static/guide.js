// The live view: shows the server's screen, takes taps, and goes on along the way ahead when the server is away.
import { anchor, phaseAt, stepsBack, walk } from "./ahead.js";
import { ServerClock } from "./clock.js";
import { Countdown } from "./countdown.js";
import { keepAnswer, keepAwake, keepForOffline } from "./device.js";
import { Hands } from "./hands.js";
import { morph } from "./morph.js";
import { Notices } from "./notices.js";
import { Sound } from "./sound.js";
import { Refused, TapQueue } from "./taps.js";
import { Watch } from "./watch.js";

const AWAKE_MS = 3000;
const WATCHING_MS = 30000; // while the stream tells what is new, only clock and units are asked for
const SOON_MS = 200;
const ASLEEP_MS = 60000;
const PATIENCE_MS = 8000;
const MOST_TAPS_ON = 8; // after so many taps the way ahead is asked for again
const LEAST_BACK = 8; // and when fewer steps back than this have a screen, though there are more

class Live {
  constructor(page) {
    const { session, token } = page.dataset;
    this.page = page;
    this.address = `/guide/${session}`;
    this.stage = page.querySelector("[data-stage]");
    this.notices = new Notices(page);
    this.sound = new Sound();
    Object.assign(this, { nodes: {}, time: new ServerClock(), clock: () => this.time.now() });
    this.queue = new TapQueue(session, { address: `${this.address}/taps`, token, clock: this.clock });
    this.countdown = new Countdown(this.stage, { clock: this.clock, ticked: () => this.#paint() });
    this.hands = new Hands(this);
    this.watch = new Watch(`${this.address}/stream`, { told: (number) => this.#told(number), broke: () => this.poll() });
    Object.assign(this, { asking: 0, heard: 0 });
  }

  async start() {
    await this.queue.open();
    this.notices.kept(this.queue.kept);
    this.hands.start();
    document.addEventListener("visibilitychange", () => (document.hidden ? this.watch.close() : this.poll()));
    for (const turn of ["online", "offline"]) window.addEventListener(turn, () => this.poll());
    this.countdown.start();
    await this.poll();
    this.page.dataset.ready = "yes";
    keepForOffline(this.page, this.address, (kept) => this.notices.cached(kept));
    keepAwake((works) => this.notices.awake(works));
  }

  // `key` is the text by which the lead of a button is found; the event may hold a name besides.
  async tap(event, key = JSON.stringify(event)) {
    this.sound.wake();
    const undo = event.kind === "undo" ? this.place?.undo : undefined;
    if (event.kind === "undo" && !undo && this.#away()) return;
    const made = undo ? { ...event, target: undo } : event;
    this.page.dataset.synced = "no";
    await this.queue.keep(made, key);
    await this.#follow();
    await this.#deliver();
    this.#next(AWAKE_MS);
  }

  async poll() {
    clearTimeout(this.timer);
    this.asking += 1;
    await this.#deliver();
    try {
      const asked = Date.now();
      const headers = { accept: "application/json", "x-laydown-have": this.state?.have ?? "" };
      const response = await fetch(`${this.address}/state`, { headers, signal: AbortSignal.timeout(PATIENCE_MS) });
      if (!response.ok) throw new Error(`the server answered ${response.status}`);
      const old = response.headers.get("x-laydown-from") === "cache";
      const state = await response.json();
      if (!old) this.time.set(state.now_s, asked);
      if (state.same) this.#network(true);
      else await this.#accept(state, old);
      await this.#lookAhead(old);
    } catch {
      this.#network(false);
      await this.#follow();
    }
    this.asking -= 1;
    if (!document.hidden && !this.#away()) this.watch.open();
    this.#next(document.hidden ? ASLEEP_MS : this.watch.alive ? WATCHING_MS : AWAKE_MS);
  }

  #next(wait_ms) {
    this.page.dataset.watching = this.watch.alive ? "yes" : "no";
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.poll(), this.#behind() ? SOON_MS : wait_ms);
  }

  // Another screen has tapped, and this one has not asked since.
  #behind() {
    return this.heard > (this.state?.version ?? 0) && !this.#away();
  }

  #told(number) {
    this.heard = number;
    this.page.dataset.watching = "yes";
    const busy = this.asking > 0 || this.queue.sending; // what is on its way may bring it
    if (!busy && (this.#behind() || this.#away())) this.poll();
  }

  async #deliver() {
    try {
      const answer = await this.queue.send();
      if (answer) await this.#accept(answer.state, false);
      this.notices.refused(null);
    } catch (error) {
      if (error instanceof Refused) this.notices.refused(error.message);
      else this.#network(false);
    }
    const left = (await this.queue.waiting()).length;
    this.notices.waiting(left);
    this.page.dataset.synced = left === 0 ? "yes" : "no";
  }

  async #accept(state, old) {
    if (this.state && state.version < this.state.version) return; // overtaken by a later answer
    this.#network(!old);
    this.notices.saved(state.saved_s);
    this.state = state;
    if (!old) await keepAnswer(`${this.address}/state`, state);
    await this.#follow();
  }

  #away() {
    return this.page.dataset.network === "away";
  }

  #network(there) {
    this.notices.network(there);
    this.#paint();
  }

  // A prepared way stays true as long as the work stays on it: its times hang on the taps.
  async #lookAhead(old) {
    const { leads, state } = this;
    const enough = stepsBack(this.nodes, state) >= Math.min(LEAST_BACK, state.back.length);
    if (leads && this.nodes[state.node] && enough && leads.left > 0) {
      leads.left -= Number(leads.seen !== state.version);
      leads.seen = state.version;
      return;
    }
    const response = await fetch(`${this.address}/ahead`, { signal: AbortSignal.timeout(PATIENCE_MS) });
    if (!response.ok) return;
    const ahead = await response.json();
    const { version, nodes } = ahead;
    this.nodes = nodes;
    this.leads = { version, seen: version, left: old ? 0 : MOST_TAPS_ON };
    this.page.dataset.prepared = String(Object.keys(nodes).length);
    if (response.headers.get("x-laydown-from") !== "cache") await keepAnswer(`${this.address}/ahead`, ahead);
    await this.#follow();
  }

  // Finds where the work stands with the taps that wait: the server's place, or further along the way ahead.
  async #follow() {
    if (!this.state) return;
    this.waiting = await this.queue.waiting();
    this.place = walk(this.nodes, this.state, this.waiting);
    this.notices.stuck(!this.place.known);
    this.#paint();
  }

  #paint() {
    if (!this.place) return;
    const { node, arrivals, course, undo } = this.place;
    const phase = phaseAt(course, arrivals, this.clock());
    const noBack = !undo && this.#away();
    const mark = phase.html + JSON.stringify(arrivals) + noBack;
    if (mark === this.painted) return;
    const turned = this.page.dataset.node === node && this.painted !== undefined;
    this.painted = mark;
    if (this.page.dataset.node === node) morph(this.stage, phase.html);
    else this.hands.turnPage(phase.html);
    anchor(this.stage, arrivals);
    this.hands.holdBack(noBack);
    this.page.dataset.node = node;
    this.countdown.restart();
    this.#tell(phase, turned);
  }

  #tell(phase, turned) {
    const words = this.stage.querySelector("[data-say]")?.textContent ?? "";
    this.notices.say(words, phase.assertive);
    if (turned && phase.sound > (this.sounded ?? 0)) this.sound.count(phase.sound, words);
    this.sounded = phase.sound;
  }
}

new Live(document.querySelector("[data-guide]")).start();
