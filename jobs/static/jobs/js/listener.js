// In the audio thread: hands on what the microphone hears, a tenth of a second at a time.
const BATCH = 4096;

class Listener extends AudioWorkletProcessor {
  #batch = new Float32Array(BATCH);
  #filled = 0;

  process([heard]) {
    const samples = heard[0] ?? new Float32Array(128); // nothing connected is silence, and takes its time
    this.#batch.set(samples, this.#filled);
    this.#filled += samples.length;
    if (this.#filled >= BATCH) {
      this.port.postMessage(this.#batch.slice(0, this.#filled));
      this.#filled = 0;
    }
    return true;
  }
}

registerProcessor("listener", Listener);
