// Measures with the microphone of this device: the sweep is played while the browser records, and
// what it heard goes to the server as it is. Until the server has it, it stays on the page.
import { readCharts } from "./chart.js";
import { wavOf } from "./wav.js";

const BEFORE = 0.5; // s recorded before the sweep begins
const AFTER = 1.2; // s after it, for what is still on its way
const SLACK = 20; // s more where another player has to be started
const LOWEST_RATE = 40_000; // Hz; below it there is no treble
// What browsers do for telephone calls, and a measurement must not have.
const PROCESSING = ["echoCancellation", "autoGainControl", "noiseSuppression"];
const REFUSALS = {
  NotAllowedError: "refused",
  SecurityError: "refused",
  NotFoundError: "none",
  NotReadableError: "busy",
  AbortError: "busy",
  OverconstrainedError: "gone",
  NotSupportedError: "rates",
};

// What stops a recording, by the code of what is said about it.
class Stopped extends Error {}

export function measureHere(form) {
  const part = (name) => document.querySelector(`[data-part="${name}"]`);
  const words = readWords();
  const buttons = ["start", "stop", "again", "save"];
  let kept = null; // the last recording the server has not got
  let stop = null;

  const say = (code, values = {}) => { part("status").textContent = filled(words[code], values); };
  const show = (...names) => buttons.forEach((name) => { part(name).hidden = !names.includes(name); });

  if (!window.isSecureContext || !navigator.mediaDevices?.getUserMedia) {
    say("insecure");
    part("start").disabled = true;
    return;
  }
  nameInputs(part("inputs"));
  part("start").addEventListener("click", measure);
  part("stop").addEventListener("click", () => stop?.());
  part("again").addEventListener("click", () => send());

  async function measure() {
    if (!form.reportValidity()) return;
    form.elements.entry_token.value = crypto.randomUUID();
    const elsewhere = part("elsewhere").checked;
    part("told").replaceChildren();
    drop();
    show("stop");
    say("asking");
    const listening = new Listening({ input: part("inputs").value, elsewhere, form });
    stop = () => listening.stop(elsewhere);
    listening.told = (code, values) => part("told").append(item(filled(words[code], { ...values, what: words[values?.what] })));
    listening.heard = (left, level) => {
      say(elsewhere ? "waiting" : "playing", { left });
      part("meter").value = level;
    };
    try {
      const { samples, rate } = await listening.record();
      keep(wavOf(samples, rate));
    } catch (error) {
      show("start");
      if (error instanceof Stopped) say(error.message, error.cause);
      else say(REFUSALS[error.name] || "failed", { why: error.message });
      return;
    } finally {
      part("meter").value = part("meter").min;
      nameInputs(part("inputs"));
    }
    await send();
  }

  function keep(file) {
    kept = file;
    part("save").href = URL.createObjectURL(file);
    part("save").download = file.name;
    form.dataset.dirty = "yes"; // who leaves now loses it
  }

  function drop() {
    if (kept) URL.revokeObjectURL(part("save").href);
    kept = null;
  }

  async function send() {
    show();
    say("sending");
    const body = new FormData(form);
    body.set("recording", kept);
    let answer;
    try {
      answer = await fetch(location.href, { method: "POST", body });
    } catch {
      answer = { status: 0 };
    }
    if (answer.redirected) return left("signed-out", "save");
    if (answer.status !== 201 && answer.status !== 422) return left("unsent", "again", "save");
    part("result").innerHTML = await answer.text();
    readCharts(part("result"));
    if (answer.status === 422) return left("wrong", "start", "again", "save");
    drop();
    form.dispatchEvent(new Event("saved"));
    next(form.elements.channel);
    left("kept", "start");
  }

  function left(code, ...names) {
    show(...names);
    say(code);
  }
}

// One take: from asking for the microphone to the last sample, or to what stopped it.
class Listening {
  #pieces = [];
  #count = 0;
  #finish = null;
  #fail = null;

  constructor({ input, elsewhere, form }) {
    Object.assign(this, { input, elsewhere, form });
  }

  async record() {
    const off = Object.fromEntries(PROCESSING.map((name) => [name, false]));
    const audio = { ...off, channelCount: 1, ...(this.input && { deviceId: { exact: this.input } }) };
    const stream = await navigator.mediaDevices.getUserMedia({ audio });
    const [track] = stream.getAudioTracks();
    const settings = track.getSettings();
    const ended = new Promise((resolve, reject) => { this.#finish = resolve; this.#fail = reject; });
    ended.catch(() => {}); // it may be stopped before anybody waits for it
    const fail = (code) => () => this.#fail(new Stopped(code));
    const hidden = () => document.hidden && fail("left")();
    document.addEventListener("visibilitychange", hidden);
    track.addEventListener("ended", fail("unplugged"));
    const awake = await navigator.wakeLock?.request("screen").catch(() => null);
    const clock = settings.sampleRate >= LOWEST_RATE ? { sampleRate: settings.sampleRate } : {};
    // Nobody waits for a note here: long buffers, so that a busy machine loses nothing.
    const context = new AudioContext({ ...clock, latencyHint: "playback" });
    try {
      const rate = context.sampleRate;
      const slowest = Math.min(rate, settings.sampleRate || rate);
      if (slowest < LOWEST_RATE) throw new Stopped("slow", { cause: { rate: slowest } });
      this.#tell(settings, context);
      await context.audioWorklet.addModule(this.form.dataset.listener);
      const sweep = await this.#sweep(context);
      await context.resume();
      context.addEventListener("statechange", () => context.state !== "running" && fail("interrupted")());
      this.#listen(context, stream, sweep.duration + (this.elsewhere ? SLACK : BEFORE + AFTER));
      if (!this.elsewhere) play(context, sweep);
      await ended;
      return { samples: joined(this.#pieces, this.#count), rate };
    } finally {
      document.removeEventListener("visibilitychange", hidden);
      for (const each of stream.getTracks()) each.stop();
      this.#fail(new Stopped("stopped"));
      await context.close();
      await awake?.release();
    }
  }

  // Somebody has had enough: where another player plays, it is over and counts.
  stop(counts) {
    if (counts) this.#finish?.();
    else this.#fail?.(new Stopped("stopped"));
  }

  #tell(settings, context) {
    for (const what of PROCESSING) {
      if (settings[what] === undefined) this.told("unknown", { what });
      else if (settings[what]) this.told("on", { what });
    }
    if (!this.elsewhere && context.destination.maxChannelCount < 2) this.told("one-way");
  }

  async #sweep(context) {
    const answer = await fetch(this.form.dataset.sweep).catch(() => null);
    if (!answer?.ok || answer.redirected) throw new Stopped("no-sweep");
    return context.decodeAudioData(await answer.arrayBuffer());
  }

  #listen(context, stream, seconds) {
    const ear = new AudioWorkletNode(context, "listener", { channelCount: 1, channelCountMode: "explicit" });
    const whole = seconds * context.sampleRate;
    ear.port.onmessage = ({ data }) => {
      this.#pieces.push(data);
      this.#count += data.length;
      this.heard(Math.max(Math.ceil((whole - this.#count) / context.sampleRate), 0), loudness(data));
      if (this.#count >= whole) this.#finish();
    };
    // Connected, so that it is asked; what it gives is silence.
    context.createMediaStreamSource(stream).connect(ear).connect(context.destination);
  }
}

function play(context, sweep) {
  const player = new AudioBufferSourceNode(context, { buffer: sweep });
  player.connect(context.destination);
  player.start(context.currentTime + BEFORE);
}

function joined(pieces, count) {
  const samples = new Float32Array(count);
  let at = 0;
  for (const piece of pieces) {
    samples.set(piece, at);
    at += piece.length;
  }
  return samples;
}

function loudness(samples) {
  let peak = 1e-6;
  for (const sample of samples) peak = Math.max(peak, Math.abs(sample));
  return 20 * Math.log10(peak);
}

async function nameInputs(select) {
  const devices = await navigator.mediaDevices.enumerateDevices();
  const chosen = select.value;
  const named = devices.filter(({ kind, deviceId, label }) => kind === "audioinput" && deviceId && label);
  if (!named.length) return;
  select.replaceChildren(select.options[0], ...named.map(({ deviceId, label }) => new Option(label, deviceId)));
  select.value = [...select.options].some(({ value }) => value === chosen) ? chosen : "";
}

function next(select) {
  if (select.selectedIndex < select.options.length - 1) select.selectedIndex += 1;
}

function readWords() {
  const names = document.querySelectorAll("[data-words] dt");
  return Object.fromEntries([...names].map((name) => [name.textContent, name.nextElementSibling.textContent]));
}

function filled(text, values) {
  return text.replaceAll(/\{(\w+)\}/g, (whole, name) => values[name] ?? whole);
}

function item(text) {
  const line = document.createElement("li");
  line.textContent = text;
  return line;
}
