// Lengths as they are typed, to millimetres and back: what the server reads too, as far as a drawing needs it.
const IN = { mm: 1, cm: 10, m: 1000, in: 25.4, '"': 25.4, "″": 25.4, ft: 304.8, "'": 304.8, "′": 304.8 };
const FRACTIONS = { "¼": 0.25, "½": 0.5, "¾": 0.75, "⅛": 0.125, "⅜": 0.375, "⅝": 0.625, "⅞": 0.875 };
const TERM = /^\s*(?:(\d+(?:[.,]\d+)?)(?:[ -]+(\d+)\/(\d+))?|(\d+)\/(\d+))\s*([¼½¾⅛⅜⅝⅞])?\s*(mm|cm|m|in|ft|["″'′])?/i;

// Millimetres; null where nothing is typed, NaN where it cannot be read here.
export function read(text, plain) {
  let rest = text.trim().replace("−", "-");
  if (!rest) return null;
  const sign = rest.startsWith("-") ? -1 : 1;
  rest = rest.replace(/^[-+]/, "");
  if (!rest) return NaN;
  let sum = 0;
  let unit = "";
  while (rest) {
    const term = TERM.exec(rest.replace(/^([¼½¾⅛⅜⅝⅞])/, "0$1"));
    if (!term) return NaN;
    const [whole, number, top, bottom, alone, below, sliver, typed] = term;
    const value = alone ? alone / below : Number(number.replace(",", ".")) + (top ? top / bottom : 0);
    unit = (typed || (unit === "ft" || unit === "'" ? "in" : plain)).toLowerCase();
    sum += (value + (FRACTIONS[sliver] || 0)) * IN[unit];
    rest = rest.replace(/^([¼½¾⅛⅜⅝⅞])/, "0$1").slice(whole.length).trim();
  }
  return sign * sum;
}

// As the workshop types it, to a tenth of a millimetre or a hundredth of an inch.
export function write(millimetres, plain) {
  return `${bare(millimetres, plain)} ${plain}`;
}

// The figure alone, as it stands beside an edge.
export function bare(millimetres, plain) {
  const inches = plain === "in";
  const factor = inches ? 100 / 25.4 : 10;
  const rounded = Math.round(millimetres * factor) / (inches ? 100 : 10) || 0;
  const mark = document.documentElement.lang.startsWith("de") ? "," : ".";
  return String(rounded).replace(".", mark);
}

// What a drag moves by: a millimetre, or a sixteenth of an inch.
export const grain = (plain) => (plain === "in" ? 25.4 / 16 : 1);
