// Counts down to an absolute time, so that sleep, reload and a lost link change nothing; shows local clock times.
for (const time of document.querySelectorAll("time[datetime]")) {
  const at = new Date(time.dateTime);
  if (!Number.isNaN(at.getTime())) time.textContent = at.toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" });
}
const clock = document.querySelector("[data-deadline]");
const left = clock?.querySelector(".left");
function show() {
  const minutes = Math.floor((Date.parse(clock.dataset.deadline) - Date.now()) / 60000);
  const words = minutes >= 0 ? clock.dataset.left : clock.dataset.over;
  left.textContent = words.replace("{minutes}", Math.abs(minutes));
}
if (left && clock.dataset.deadline) {
  show();
  setInterval(show, 5000);
}
