// A file that is too large is told at its field before it is sent, so that nothing else on the page is lost.

export function tooLarge(form) {
  const largest = Number(form.dataset.largest);
  return [...form.querySelectorAll("input[type=file]")].filter((one) => one.files[0]?.size > largest);
}

function tell(field, words) {
  // What was wrong with the file before is no longer of interest.
  field.closest(".field").querySelectorAll(".problem").forEach((one) => one.remove());
  field.setAttribute("aria-invalid", "true");
  field.setAttribute("aria-describedby", `${field.getAttribute("aria-describedby") || ""} ${field.id}-size`.trim());
  const said = document.createElement("p");
  said.className = "problem";
  said.id = `${field.id}-size`;
  said.textContent = words;
  field.after(said);
  field.closest(".field").classList.add("wrong");
}

function untell(field) {
  const said = document.getElementById(`${field.id}-size`);
  if (!said) return;
  said.remove();
  field.removeAttribute("aria-invalid");
  field.setAttribute("aria-describedby", field.getAttribute("aria-describedby").replace(`${field.id}-size`, "").trim());
  field.closest(".field").classList.remove("wrong");
}

document.addEventListener("submit", (event) => {
  const form = event.target;
  if (!form.dataset.largest) return;
  form.querySelectorAll("input[type=file]").forEach(untell);
  const found = tooLarge(form);
  if (!found.length) return;
  event.preventDefault();
  found.forEach((one) => tell(one, form.dataset.tooLarge));
  found[0].focus();
});
