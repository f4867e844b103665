// What the top bar says: network, what waits, when it was saved; and the two regions read aloud by a screen reader.

export class Notices {
  constructor(page) {
    this.page = page;
    this.polite = page.querySelector("[data-polite]");
    this.assertive = page.querySelector("[data-assertive]");
  }

  network(there) {
    this.page.dataset.network = there ? "there" : "away";
    this.#text("network", there ? "connected" : this.offline ? "works without network" : "no network: keep this page open");
  }

  saved(at_s) {
    const at = new Date(at_s * 1000);
    const words = `saved ${at.getHours()}:${String(at.getMinutes()).padStart(2, "0")}`;
    this.#text("saved", at_s > 0 ? words : "");
  }

  waiting(count) {
    this.page.dataset.waiting = String(count);
    this.#text("waiting", count === 0 ? "" : `${count} ${count === 1 ? "tap waits" : "taps wait"} to be sent`);
  }

  // The page, the plan and the signs are stored, so that it can be loaded again without the network.
  cached(kept) {
    this.offline = kept;
    this.page.dataset.offline = kept ? "ready" : "no";
    this.#shown("plain-http", !kept);
  }

  kept(kept) {
    this.#shown("not-kept", !kept);
  }

  awake(works) {
    this.#shown("not-awake", !works);
  }

  stuck(stuck) {
    this.#shown("stuck", stuck);
  }

  noBack(end) {
    this.#shown("no-back", end);
  }

  refused(words) {
    this.#text("refused", words);
    this.#shown("refused", words !== "");
  }

  say(words, atOnce = false) {
    const region = atOnce ? this.assertive : this.polite;
    if (region.textContent !== words) region.textContent = words;
  }

  #text(name, words) {
    for (const element of this.page.querySelectorAll(`[data-notice-text="${name}"]`)) {
      if (element.textContent !== words) element.textContent = words;
    }
  }

  #shown(name, shown) {
    for (const element of this.page.querySelectorAll(`[data-notice="${name}"]`)) element.hidden = !shown;
  }
}
