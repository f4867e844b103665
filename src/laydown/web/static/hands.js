// Fingers, keys and focus of the live view: one knuckle or one key is enough for everything.

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

  // New markup is put in by `put`; the focus stays on the same button, else goes to the main one.
  keepFocus(put) {
    const focused = this.stage.contains(document.activeElement) ? document.activeElement : null;
    const tap = focused?.dataset.tap;
    put();
    if (!focused) return;
    const same = [...this.stage.querySelectorAll("[data-tap]")].find((button) => button.dataset.tap === tap);
    (same ?? this.stage.querySelector(".first[data-tap]") ?? this.stage).focus({ preventScroll: true });
  }

  #click(event) {
    const button = event.target.closest("[data-tap]");
    if (!button || button.getAttribute("aria-disabled") === "true") return;
    const tap = JSON.parse(button.dataset.tap);
    const name = button.closest(".anyway")?.querySelector("[data-name]");
    if (name && name.value.trim() === "") return name.focus();
    if (name) tap.text = name.value.trim();
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
