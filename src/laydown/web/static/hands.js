// Fingers, keys and focus of the live view: one knuckle or one key is enough for everything.

const BOUNCE_MS = 300;
const SEEN = "laydown-seen";

export class Hands {
  constructor(live) {
    this.live = live;
    this.stage = live.stage;
  }

  start() {
    document.addEventListener("click", (event) => this.#click(event));
    document.addEventListener("keydown", (event) => this.#key(event));
    this.#sounds();
    this.#once();
  }

  // Another screen: the focus goes to the same button if it is there again, else to the main one. For a moment nothing
  // can be tapped, so that a knuckle that bounces does not tap what has just come to stand there.
  turnPage(html) {
    const focused = this.stage.contains(document.activeElement) ? document.activeElement : null;
    const tap = focused?.dataset.tap;
    this.stage.innerHTML = html;
    this.#rest();
    if (!focused) return;
    const same = [...this.stage.querySelectorAll("[data-tap]")].find((button) => button.dataset.tap === tap);
    (same ?? this.stage.querySelector(".first[data-tap]") ?? this.stage).focus({ preventScroll: true });
  }

  // Undo does nothing while there is no screen to go back to; the button and a line above say so.
  holdBack(noBack) {
    const button = this.stage.querySelector('[data-key="u"]');
    if (button && noBack) {
      button.setAttribute("aria-disabled", "true");
      button.querySelector("small").textContent = this.stage.dataset.noBack;
    }
    this.live.notices.noBack(Boolean(button) && noBack);
  }

  #rest() {
    clearTimeout(this.resting);
    document.body.dataset.armed = "no";
    this.resting = setTimeout(() => {
      document.body.dataset.armed = "yes";
      this.resting = null;
    }, BOUNCE_MS);
  }

  #click(event) {
    const button = event.target.closest("[data-tap]");
    if (!button || this.resting || button.getAttribute("aria-disabled") === "true") return;
    const tap = JSON.parse(button.dataset.tap);
    const name = button.closest(".anyway")?.querySelector("[data-name]");
    if (name && name.value.trim() === "") return name.focus();
    if (name) tap.text = name.value.trim();
    const weight = button.closest(".weigh")?.querySelector("[data-weight]");
    if (weight) tap.weight_g = Number.parseFloat(weight.value.replace(",", ".")) || 0;
    this.#rest();
    this.live.tap(tap, button.dataset.tap);
  }

  // Enter is the main button; U, H, F, E, N and the numbers stand on their buttons.
  #key(event) {
    const typing = event.target.closest("input, dialog");
    const chosen = event.key === "Enter" && event.target.closest("button, a, summary");
    if (typing || chosen || event.ctrlKey || event.metaKey || event.altKey) return;
    const button = this.stage.querySelector(`[data-key="${CSS.escape(event.key.toLowerCase())}"]`);
    if (!button) return;
    event.preventDefault();
    button.click();
  }

  #sounds() {
    for (const box of document.querySelectorAll("[data-sound]")) {
      box.checked = this.live.sound[box.dataset.sound];
      box.addEventListener("change", () => this.live.sound.set(box.dataset.sound, box.checked));
    }
  }

  // Said once for each session.
  #once() {
    const dialog = document.querySelector("[data-once]");
    const key = `${SEEN}-${this.live.page.dataset.session}`;
    if (!dialog || localStorage.getItem(key)) return;
    dialog.querySelector("[data-once-seen]").addEventListener("click", () => {
      localStorage.setItem(key, "yes");
      dialog.close();
    });
    dialog.showModal();
  }
}
