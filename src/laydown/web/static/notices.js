// What the top bar says: network, what waits, when it was saved; and the two regions read aloud by a screen reader.
// Its words stand in the page, at the places where they are shown.

export class Notices {
  constructor(page) {
    this.page = page;
    this.polite = page.querySelector("[data-polite]");
    this.assertive = page.querySelector("[data-assertive]");
  }

  network(there) {
    this.page.dataset.network = there ? "there" : "away";
    this.#text("network", ({ there: said, kept, away }) => (there ? said : this.offline ? kept : away));
  }

  saved(at_s) {
    const at = new Date(at_s * 1000);
    const time = `${at.getHours()}:${String(at.getMinutes()).padStart(2, "0")}`;
    this.#text("saved", ({ said }) => (at_s > 0 ? said.replace("{time}", time) : ""));
  }

  waiting(count) {
    this.page.dataset.waiting = String(count);
    this.#text("waiting", ({ one, many }) => (count === 0 ? "" : count === 1 ? one : many.replace("{count}", count)));
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

  // `words` is what the server said; none if it said nothing, null if nothing was refused.
  refused(words) {
    this.#text("refused", ({ none }) => (words === "" ? none : words ?? ""));
    this.#shown("refused", words !== null);
  }

  say(words, atOnce = false) {
    const region = atOnce ? this.assertive : this.polite;
    if (region.textContent !== words) region.textContent = words;
  }

  #text(name, choose) {
    for (const element of this.page.querySelectorAll(`[data-notice-text="${name}"]`)) {
      const words = choose(element.dataset);
      if (element.textContent !== words) element.textContent = words;
    }
  }

  #shown(name, shown) {
    for (const element of this.page.querySelectorAll(`[data-notice="${name}"]`)) element.hidden = !shown;
  }
}
