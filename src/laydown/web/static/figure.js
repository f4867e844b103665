// Less and more beside a figure, so that nobody has to type with gloves; the unit stays behind the number.

export function stepOf(button) {
  const field = document.getElementById(button.dataset.of);
  const number = Number.parseFloat(field.value.replace(",", "."));
  const next = Math.max(0, (Number.isFinite(number) ? number : 0) - Number(button.dataset.less));
  field.value = `${Math.round(next * 10) / 10} ${field.dataset.unitOf}`;
}

document.addEventListener("click", (event) => {
  const button = event.target.closest("[data-less]");
  if (button) stepOf(button);
});
