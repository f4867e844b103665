// The way ahead: the screens the server has prepared for the next taps, so that the page goes on without it.
// { base, nodes: { key: { html, to: { tap: key } } } }; `tap` is the text of a button's data-tap.
// A time that hangs on a tap not yet made is written as data-after (the node that tap leads to) and data-plus (ms).

// Follows the waiting taps from the node the server last told. `known` is false when a tap leads where nothing is
// prepared: the page then stays where it is and says so.
export function walk(ahead, start, waiting) {
  const path = [start];
  const arrivals = {};
  for (const tap of waiting) {
    const next = ahead?.nodes[path.at(-1)]?.to[JSON.stringify(tap.event)];
    if (next !== undefined) {
      path.push(next);
    } else if (tap.event.kind === "undo" && path.length > 1) {
      path.pop();
      continue;
    } else {
      return { node: path.at(-1), arrivals, known: false };
    }
    arrivals[next] = tap.at_ms;
  }
  return { node: path.at(-1), arrivals, known: true };
}

// Sets the times that hang on taps made here; the prepared time stands where the tap is not known.
export function anchor(root, arrivals) {
  for (const element of root.querySelectorAll("[data-after]")) {
    const at = arrivals[element.dataset.after];
    if (at !== undefined) element.dataset.deadline = String(at + Number(element.dataset.plus));
  }
  for (const element of root.querySelectorAll("[data-from-after]")) {
    const at = arrivals[element.dataset.fromAfter];
    if (at !== undefined) element.dataset.from = String(at + Number(element.dataset.fromPlus));
  }
}
