// A tap on a panel of the picture goes through the same choices as the list beside it; the list stays the truth.
const form = document.querySelector("#damage");
const shown = document.querySelector("#suggested");
const CYCLE = ["suggest", "repaired", "blend", "clear", "leave"];
let asked = 0;

async function refresh() {
  const turn = ++asked;
  shown.setAttribute("aria-busy", "true");
  const query = new URLSearchParams(new FormData(form));
  const answer = await fetch(`/new/suggest?${query}`, { headers: { accept: "text/html" } }).catch(() => null);
  // An answer that was overtaken by a later tap is not shown.
  const text = answer?.ok ? await answer.text() : "";
  if (turn !== asked) return;
  if (text) shown.innerHTML = text;
  shown.removeAttribute("aria-busy");
}

shown.addEventListener("click", (event) => {
  const panel = event.target.closest("[data-panel]");
  const list = panel && form.querySelector(`select[data-panel="${CSS.escape(panel.dataset.panel)}"]`);
  if (!list) return;
  list.value = CYCLE[(CYCLE.indexOf(list.value) + 1) % CYCLE.length];
  refresh();
});
form.addEventListener("change", refresh);
for (const part of document.querySelectorAll(".script-only")) part.hidden = false;
for (const part of document.querySelectorAll(".noscript")) part.hidden = true;
// The browser may have filled the list in again after going back.
if ([...form.querySelectorAll("select")].some((list) => list.value !== "suggest")) refresh();
