// Samples as the bytes of a WAV file: one channel, 24 bit, full scale 1.
const HEADER = 44;
const FULL = 2 ** 23 - 1;

export function wavOf(samples, rate) {
  const bytes = new DataView(new ArrayBuffer(HEADER + 3 * samples.length));
  const word = (at, text) => [...text].forEach((letter, n) => bytes.setUint8(at + n, letter.charCodeAt(0)));
  word(0, "RIFF");
  bytes.setUint32(4, bytes.byteLength - 8, true);
  word(8, "WAVEfmt ");
  bytes.setUint32(16, 16, true);
  bytes.setUint16(20, 1, true); // whole numbers
  bytes.setUint16(22, 1, true);
  bytes.setUint32(24, rate, true);
  bytes.setUint32(28, 3 * rate, true);
  bytes.setUint16(32, 3, true);
  bytes.setUint16(34, 24, true);
  word(36, "data");
  bytes.setUint32(40, 3 * samples.length, true);
  samples.forEach((sample, n) => {
    const whole = Math.round(Math.max(-1, Math.min(1, sample)) * FULL);
    bytes.setUint16(HEADER + 3 * n, whole & 0xffff, true);
    bytes.setInt8(HEADER + 3 * n + 2, whole >> 16);
  });
  return new File([bytes], "take.wav", { type: "audio/wav" });
}
