// Tones below 1 kHz, because higher ones are not heard through hood and fan; they are told apart by their count:
// one = half of the time is gone, two = ten seconds left, three = too late. A spoken word may follow.

const PITCH_HZ = 660;
const LENGTH_S = 0.18;
const PAUSE_S = 0.14;
const KEEP = "laydown-sound";

export class Sound {
  constructor() {
    const kept = read();
    this.on = kept.on ?? true;
    this.speaks = kept.speaks ?? false;
  }

  // Browsers stay silent until the page was touched; called at the first tap.
  wake() {
    if (!this.on) return;
    this.audio ??= new AudioContext();
    if (this.audio.state === "suspended") this.audio.resume();
  }

  set(name, value) {
    this[name] = value;
    try {
      localStorage.setItem(KEEP, JSON.stringify({ on: this.on, speaks: this.speaks }));
    } catch {
      // A browser that keeps nothing asks again at the next start.
    }
  }

  count(times, word = "") {
    if (this.on && this.audio?.state === "running") this.#beep(times);
    if (this.speaks && word && "speechSynthesis" in window) {
      speechSynthesis.cancel();
      speechSynthesis.speak(new SpeechSynthesisUtterance(word));
    }
  }

  #beep(times) {
    const start = this.audio.currentTime + 0.02;
    for (let turn = 0; turn < times; turn += 1) {
      const from = start + turn * (LENGTH_S + PAUSE_S);
      const tone = new OscillatorNode(this.audio, { type: "sine", frequency: PITCH_HZ });
      const level = new GainNode(this.audio, { gain: 0 });
      level.gain.setValueAtTime(0, from);
      level.gain.linearRampToValueAtTime(0.8, from + 0.02);
      level.gain.setValueAtTime(0.8, from + LENGTH_S - 0.03);
      level.gain.linearRampToValueAtTime(0, from + LENGTH_S);
      tone.connect(level).connect(this.audio.destination);
      tone.start(from);
      tone.stop(from + LENGTH_S);
    }
  }
}

function read() {
  try {
    return JSON.parse(localStorage.getItem(KEEP)) ?? {};
  } catch {
    return {};
  }
}
