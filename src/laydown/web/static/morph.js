// Puts new markup in place without taking away what a finger is on: where the structure is the same, only attributes
// and texts are changed, so that a button pressed while an answer arrives is still there when it is let go.

export function morph(root, html) {
  const made = document.createElement("template");
  made.innerHTML = html;
  const [old, fresh] = [[...root.querySelectorAll("*")], [...made.content.querySelectorAll("*")]];
  const same = old.length === fresh.length && old.every((element, place) => element.tagName === fresh[place].tagName);
  if (same) old.forEach((element, place) => renew(element, fresh[place]));
  else root.replaceChildren(made.content);
}

function renew(element, fresh) {
  for (const { name, value } of fresh.attributes) {
    if (element.getAttribute(name) !== value) element.setAttribute(name, value);
  }
  for (const { name } of [...element.attributes]) {
    if (!fresh.hasAttribute(name) && name !== "open") element.removeAttribute(name);
  }
  const counted = "deadline" in element.dataset || "unit" in element.dataset;
  if (fresh.childElementCount === 0 && !counted && element.textContent !== fresh.textContent) {
    element.textContent = fresh.textContent;
  }
}
