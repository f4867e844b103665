// The way ahead: the screens the server has prepared for the next taps, so that the page goes on without it.
// A node is one place: { phases: [{ begins, html, sound, assertive }], to: { text of a tap: key of the next node } }.
// An instant that hangs on a tap not yet made names the node that tap leads to, and the seconds after it.

// Taps that are kept in the log and lead nowhere.
const ONLY_KEPT = new Set(["weighed", "defect", "note"]);

// Follows the waiting taps from the state the server last told. `state.back` names the taps that undo would take back and
// the places it leads to, the next one first. `known` is false when a tap leads where nothing is prepared: the page then
// stays where it is and says so. `undo` is the tap that can be taken back from here; none without a screen to show.
export function walk(nodes, state, waiting) {
  const left = notYetTold(state, waiting);
  const undone = targets(left);
  const here = new Set(left.map((tap) => tap.id));
  let place = { node: state.node, course: state, arrivals: { ...state.arrivals }, back: state.back, known: true };
  for (const tap of left) {
    if (undone.has(tap.id) || here.has(tap.event.target)) continue; // taken back before it was sent
    if (ONLY_KEPT.has(tap.event.kind)) continue;
    const next = tap.event.kind === "undo" ? stepBack(nodes, state, place, tap) : stepOn(nodes, place, tap);
    if (next === null) return { ...place, known: false, undo: lastHeld(left)?.id };
    place = next;
  }
  return { ...place, undo: lastHeld(left)?.id ?? (stepBack(nodes, state, place) ? place.back[0].tap : undefined) };
}

// Another screen of this device may have sent a tap, or the answer to one was lost: the state holds it already.
function notYetTold(state, waiting) {
  const told = new Set(state.recent);
  return waiting.filter((tap) => !told.has(tap.id));
}

function stepOn(nodes, place, tap) {
  const node = nodes[place.node]?.to[tap.key];
  if (node === undefined) return null;
  const arrivals = { ...place.arrivals };
  const moved = tap.event.kind === "earlier" && node === place.node && arrivals[node] !== undefined;
  arrivals[node] = moved ? arrivals[node] - tap.event.seconds_s : tap.at_s;
  return { ...place, node, course: nodes[node], arrivals };
}

function stepBack(nodes, state, place, tap) {
  const [step, ...back] = place.back;
  if (!step || (tap && tap.event.target !== step.tap)) return null;
  const course = nodes[step.node] ?? (step.node === state.node ? state : undefined);
  if (course === undefined) return null;
  const arrivals = step.at_s === null ? place.arrivals : { ...place.arrivals, [step.node]: step.at_s };
  return { ...place, node: step.node, course, arrivals, back };
}

function targets(waiting) {
  return new Set(waiting.filter((tap) => tap.event.kind === "undo").map((tap) => tap.event.target));
}

// The last of the waiting taps that still holds.
function lastHeld(waiting) {
  const undone = targets(waiting);
  return waiting.filter((tap) => tap.event.kind !== "undo" && !undone.has(tap.id)).at(-1);
}

// How many steps back have a screen.
export function stepsBack(nodes, state) {
  const missing = state.back.findIndex((step) => nodes[step.node] === undefined);
  return missing < 0 ? state.back.length : missing;
}

// When an instant is, with the tap it hangs on if that was made here.
export function when(instant, arrivals) {
  const at = arrivals[instant.after];
  return at === undefined ? instant.at_s : at + instant.plus_s;
}

// The screen of a node that stands now.
export function phaseAt(node, arrivals, now_s) {
  const begun = node.phases.filter((phase, place) => place === 0 || when(phase.begins, arrivals) <= now_s);
  return begun.at(-1);
}

// Puts the instants of taps made here into markup.
export function anchor(root, arrivals) {
  for (const name of ["deadline", "from"]) {
    for (const element of root.querySelectorAll(`[data-${name}-after]`)) {
      const data = element.dataset;
      const at_s = arrivals[data[`${name}After`]];
      if (at_s !== undefined) data[name] = String(at_s + Number(data[`${name}Plus`]));
    }
  }
}
