// What if: a moved lever asks for the part of the page that it moves. Without this script the same form reloads the page.
const form = document.querySelector("#levers");
const changedHere = document.querySelector("#changed-here");
const keep = document.querySelector("#keep");
let asked = 0;
let waiting = 0;

function settle(text) {
  const parts = new DOMParser().parseFromString(text, "text/html");
  const result = parts.querySelector("#result");
  const changed = parts.querySelector("#changed");
  if (!result || !changed) return;
  const drawing = document.querySelector("#result .picture svg");
  const room = result.querySelector(".picture");
  // The old picture stays, pale, until the new one is drawn.
  if (drawing && room && !room.querySelector("svg")) {
    room.classList.add("pale");
    room.replaceChildren(drawing);
  }
  const open = [...document.querySelectorAll("#result details[open][data-tile]")].map((tile) => tile.dataset.tile);
  document.querySelector("#result").replaceWith(result);
  for (const tile of result.querySelectorAll("details[data-tile]")) tile.open = open.includes(tile.dataset.tile);
  changedHere.replaceChildren(...changed.childNodes);
}

async function draw(query, turn) {
  const answer = await fetch(`${form.dataset.picture}?${query}`, { headers: { accept: "text/html" } }).catch(() => null);
  if (!answer?.ok || turn !== asked) return;
  const parts = new DOMParser().parseFromString(await answer.text(), "text/html");
  document.querySelector("#result .picture")?.replaceWith(parts.querySelector(".picture"));
}

async function ask() {
  const turn = ++asked;
  const query = new URLSearchParams(new FormData(form));
  changedHere.setAttribute("aria-busy", "true");
  let answer;
  try {
    answer = await fetch(`${form.dataset.try}?${query}`, { headers: { accept: "text/html" } });
  } catch {
    changedHere.textContent = changedHere.dataset.away;
    return;
  }
  // An answer that was overtaken by a later move is not shown.
  if (turn !== asked) return;
  changedHere.removeAttribute("aria-busy");
  if (answer.status !== 200 && answer.status !== 422) {
    changedHere.textContent = changedHere.dataset.failed;
    return;
  }
  settle(await answer.text());
  draw(query, turn);
  history.replaceState(null, "", `${location.pathname}?${query}`);
  if (!keep) return;
  const tried = document.querySelector("#result .tried") !== null;
  keep.querySelector("button").disabled = !tried;
  const values = [...query].filter(([name]) => name !== "layer" && name !== "coat");
  keep.querySelector("#keep-values").replaceChildren(
    ...values.map(([name, value]) => Object.assign(document.createElement("input"), { type: "hidden", name, value })),
  );
}

function soon() {
  clearTimeout(waiting);
  waiting = setTimeout(ask, 60);
}

if (form) {
  for (const part of form.querySelectorAll(".noscript")) part.hidden = true;
  const first = document.querySelector("#changed");
  changedHere.setAttribute("aria-live", "polite");
  changedHere.replaceChildren(...first.childNodes);
  first.remove();
  form.addEventListener("click", (event) => {
    const button = event.target.closest("button[name=step]");
    if (!button) return;
    event.preventDefault();
    const [name, way] = button.value.split(":");
    const input = form.elements[name];
    const { step, least, most } = input.dataset;
    const now = Number.parseFloat(input.value.replace(",", "."));
    const next = (Number.isNaN(now) ? Number(least) : now) + (way === "up" ? 1 : -1) * Number(step);
    input.value = String(Math.round(Math.min(Number(most), Math.max(Number(least), next)) * 1000) / 1000);
    soon();
  });
  form.addEventListener("input", soon);
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    ask();
  });
}
