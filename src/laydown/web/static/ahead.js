// The way ahead: the screens the server has prepared for the next taps, so that the page goes on without it.
// A node is one place: { phases: [{ begins, html, sound, assertive }], to: { text of a tap: key of the next node } }.
// An instant that hangs on a tap not yet made names the node that tap leads to, and the seconds after it.

// Taps that are kept in the log and lead nowhere.
const ONLY_KEPT = new Set(["weighed", "fault", "note"]);

// Follows the waiting taps from the state the server last told; `state.before` is where its undo leads. `known` is false
// when a tap leads where nothing is prepared: the page then stays where it is and says so.
export function walk(nodes, state, waiting) {
  const undone = new Set(waiting.filter((tap) => tap.event.kind === "undo").map((tap) => tap.event.target));
  const here = new Set(waiting.map((tap) => tap.id));
  let place = { node: state.node, course: state };
  const arrivals = { ...state.arrivals };
  for (const tap of waiting) {
    if (undone.has(tap.id) || here.has(tap.event.target)) continue; // taken back before it was sent
    if (ONLY_KEPT.has(tap.event.kind)) continue;
    const next = step(nodes, state, place, tap);
    if (next === null) return { ...place, arrivals, known: false };
    const moved = tap.event.kind === "earlier" && next.node === place.node && arrivals[next.node] !== undefined;
    place = next;
    arrivals[place.node] = moved ? arrivals[place.node] - tap.event.seconds_s : tap.at_s;
  }
  return { ...place, arrivals, known: true };
}

function step(nodes, state, { node, course }, tap) {
  if (course === state && state.before && tap.event.kind === "undo") {
    return { node: state.before.node, course: state.before };
  }
  const next = nodes[node]?.to[tap.key];
  return next === undefined ? null : { node: next, course: nodes[next] };
}

// The last of the waiting taps that still holds: what an undo takes back.
export function lastHeld(waiting) {
  const undone = new Set(waiting.filter((tap) => tap.event.kind === "undo").map((tap) => tap.event.target));
  return waiting.filter((tap) => tap.event.kind !== "undo" && !undone.has(tap.id)).at(-1);
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
