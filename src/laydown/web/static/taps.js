// The queue of taps: kept in the browser's own store first, sent in batches, removed only when the server has
// committed them. A tap carries its own id and time, so it may be sent twice and arrive late.

const STORE = "taps";
const LARGEST_BATCH = 50;
const PATIENCE_MS = 8000;

export class TapQueue {
  // One queue for one session; `clock` gives the time of a tap in seconds as the server counts it.
  constructor(session, { address, token, clock }) {
    Object.assign(this, { session, address, token, clock });
    this.kept = true;
    this.memory = new Map();
    this.order = 0;
    this.sending = null;
  }

  async open() {
    try {
      this.store = await openStore();
    } catch {
      this.kept = false; // shown to the user: a closed tab would now lose what was not sent
    }
    return this;
  }

  async keep(event, key) {
    this.order += 1;
    const tap = { id: newId(), session: this.session, at_s: Math.round(this.clock() * 1000) / 1000, order: this.order, key, event };
    if (this.kept) {
      await inStore(this.store, "readwrite", (taps) => taps.put(tap));
    } else {
      this.memory.set(tap.id, tap);
    }
    return tap;
  }

  async waiting() {
    const all = this.kept
      ? await inStore(this.store, "readonly", (taps) => taps.index("session").getAll(this.session))
      : [...this.memory.values()];
    return all.sort((a, b) => a.at_s - b.at_s || a.order - b.order);
  }

  async forget(ids) {
    ids.forEach((id) => this.memory.delete(id));
    if (this.kept && ids.length > 0) {
      await inStore(this.store, "readwrite", (taps) => ids.map((id) => taps.delete(id)).at(-1));
    }
  }

  // Sends everything that waits; one sender at a time, so that order is kept. Returns the last answer or null.
  send() {
    this.sending ??= this.#sendAll().finally(() => {
      this.sending = null;
    });
    return this.sending;
  }

  async #sendAll() {
    let answer = null;
    for (let batch = await this.waiting(); batch.length > 0; batch = await this.waiting()) {
      answer = await this.#post(batch.slice(0, LARGEST_BATCH));
      if (answer.stored.length === 0) throw new Refused("");
      await this.forget(answer.stored);
    }
    return answer;
  }

  async #post(batch) {
    const taps = batch.map(({ id, at_s, event }) => ({ id, at_s, event }));
    const response = await fetch(this.address, {
      method: "POST",
      headers: { "content-type": "application/json", "x-laydown-token": this.token },
      body: JSON.stringify({ taps }),
      signal: AbortSignal.timeout(PATIENCE_MS), // a stalled radio: sent again later, harmless if it did arrive
    });
    if (response.status >= 400 && response.status < 500) throw new Refused(await response.text());
    if (!response.ok) throw new Error(`the server answered ${response.status}`);
    return response.json();
  }
}

// The server has understood and said no: sending the same again will not help.
export class Refused extends Error {}

// 16 random bytes as hex: works on plain http too, where the browser offers no other source of ids.
export function newId() {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

function openStore() {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open("laydown", 1);
    request.onupgradeneeded = () => {
      request.result.createObjectStore(STORE, { keyPath: "id" }).createIndex("session", "session");
    };
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

// Resolves when the transaction is complete, not when the request is: only then is the tap safe.
function inStore(database, mode, work) {
  return new Promise((resolve, reject) => {
    const transaction = database.transaction(STORE, mode, { durability: "strict" });
    const request = work(transaction.objectStore(STORE));
    transaction.oncomplete = () => resolve(request?.result);
    transaction.onerror = () => reject(transaction.error);
    transaction.onabort = () => reject(transaction.error);
  });
}
