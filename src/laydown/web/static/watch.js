// Hears from the server when another screen has tapped. The stream only says how far the log has come; the page then asks
// for the rest. A stream that breaks or falls silent is let go, and the page polls until it can be opened again.

const SILENT_MS = 12000; // the server says something every 5 s
const FIRST_REST_MS = 3000;
const LONGEST_REST_MS = 60000;

export class Watch {
  // `told` is called with the number of the last tap, `broke` when the stream is lost.
  constructor(address, { told, broke }) {
    Object.assign(this, { address, told, broke });
    this.alive = false; // heard lately
    this.rest = FIRST_REST_MS;
    this.again = 0;
  }

  // Opens the stream unless it is open, rests after a failure, or this browser has none.
  open() {
    if (this.source || !("EventSource" in window) || Date.now() < this.again) return;
    this.source = new EventSource(this.address);
    this.source.onmessage = (event) => this.#hear(Number(event.data));
    this.source.onerror = () => this.#lose();
    this.#listen();
  }

  close() {
    clearTimeout(this.silence);
    this.source?.close();
    this.source = null;
    this.alive = false;
  }

  #listen() {
    clearTimeout(this.silence);
    this.silence = setTimeout(() => this.#lose(), SILENT_MS);
  }

  #hear(number) {
    this.alive = true;
    this.rest = FIRST_REST_MS;
    this.#listen();
    this.told(number);
  }

  // Each failure in a row doubles the rest: a server that is full or gone is not pressed.
  #lose() {
    this.close();
    this.again = Date.now() + this.rest;
    this.rest = Math.min(2 * this.rest, LONGEST_REST_MS);
    this.broke();
  }
}
