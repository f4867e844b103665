// Something went wrong: one question per page, in this page, so that it works without the network. The figures of the
// job come from the server; without it the same ways are listed from the page itself.

import { ServerClock } from "./clock.js";
import { Notices } from "./notices.js";
import { TapQueue } from "./taps.js";

const ORDER = ["stage", "defect", "panel", "size", "ways"];

class Defect {
  constructor(body) {
    this.session = body.dataset.session;
    this.notices = new Notices(body);
    this.notices.offline = Boolean(navigator.serviceWorker?.controller);
    this.said = {};
    this.words = {};
    this.head = document.querySelector("[data-crumbs]").textContent;
    const time = new ServerClock();
    const address = `/guide/${this.session}/taps`;
    this.queue = new TapQueue(this.session, { address, token: body.dataset.token, clock: () => time.now() });
    this.queue.open();
    document.addEventListener("click", (event) => this.#click(event));
    document.addEventListener("keydown", (event) => event.key === "Escape" && this.#back());
    addEventListener("popstate", (event) => this.#show(event.state?.page ?? "stage"));
    this.#show("stage");
    this.notices.network(navigator.onLine);
  }

  async #click(event) {
    const button = event.target.closest("button");
    if (!button) return;
    const { say, value, way } = button.dataset;
    if (say) {
      this.said[say] = value;
      this.words[say] = button.querySelector("span").textContent;
      await this.#go(ORDER[ORDER.indexOf(say) + 1]);
    } else if (way) {
      await this.#choose(button);
    } else if ("other" in button.dataset) {
      await this.#go("other");
    } else if ("back" in button.dataset) {
      this.#back();
    }
  }

  #back() {
    if (this.page === "stage") location.href = `/guide/${this.session}`;
    else history.back();
  }

  async #go(page) {
    if (page === "ways") await this.#ways();
    history.pushState({ page }, "");
    this.#show(page);
  }

  async #ways() {
    const place = document.querySelector("[data-ways]");
    const missing = document.querySelector("[data-no-figures]");
    try {
      const response = await fetch(`/guide/${this.session}/ways?${new URLSearchParams(this.said)}`);
      if (!response.ok) throw new Error(`the server answered ${response.status}`);
      place.innerHTML = await response.text();
      missing.hidden = true;
      this.notices.network(true);
    } catch {
      const listed = document.querySelector(`[data-listed="${this.said.stage} ${this.said.defect}"]`);
      place.replaceChildren(listed.content.cloneNode(true));
      missing.hidden = false;
      this.notices.network(false);
    }
  }

  // The choice is kept here first and sent when it can be; the live view sends what is left.
  async #choose(button) {
    const { way, ground, effect } = button.dataset;
    const { stage, defect, panel, size } = this.said;
    await this.queue.keep({ kind: "defect", text: [defect, stage, panel, size, way].join("; ") }, "defect");
    document.querySelector("[data-then]").textContent = button.closest(".way").querySelector("h2").textContent;
    document.querySelector("[data-added]").hidden = !(Number(ground) > 0 || Number(effect) > 0);
    await this.#go("then");
    this.queue.send().catch(() => this.notices.network(false));
  }

  #show(page) {
    this.page = page;
    for (const section of document.querySelectorAll("[data-page]")) section.hidden = section.dataset.page !== page;
    const asked = ORDER.slice(0, Math.max(0, ORDER.indexOf(page))).map((name) => this.words[name]);
    const crumbs = page === "then" ? ORDER.slice(0, 4).map((name) => this.words[name]) : asked;
    document.querySelector("[data-crumbs]").textContent = [this.head, ...crumbs].filter(Boolean).join(" \u203a ");
    document.querySelector(`[data-page="${page}"] h1`)?.focus({ preventScroll: true });
  }
}

new Defect(document.body);
