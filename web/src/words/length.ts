// Lengths as the program writes them, for figures that move with the pointer and cannot wait for it.

const inch = 0.0254;
const foot = 12 * inch;

/** Digits so that three count, two decimals at most. */
function metric(m: number): string {
  if (Math.abs(m) < 0.99995) {
    const mm = m * 1000;
    const decimals = Math.abs(mm) >= 100 ? 0 : Math.abs(mm) >= 10 ? 1 : 2;
    return `${plain(mm, decimals)} mm`;
  }
  return `${m.toFixed(2)} m`;
}

/** Without noughts at the end. */
const plain = (v: number, decimals: number): string => {
  const text = v.toFixed(decimals);
  const short = text.includes(".") ? text.replace(/\.?0+$/, "") : text;
  return short === "-0" ? "0" : short;
};

/** Inches to the eighth, the fraction in its lowest terms. */
function inches(eighths: number): string {
  const whole = Math.floor(eighths / 8);
  let top = eighths % 8;
  let bottom = 8;
  while (top > 0 && top % 2 === 0) {
    top /= 2;
    bottom /= 2;
  }
  if (top === 0) return `${whole} in`;
  return whole === 0 ? `${top}/${bottom} in` : `${whole}-${top}/${bottom} in`;
}

function us(m: number): string {
  const sign = m < 0 ? "-" : "";
  const eighths = Math.round(Math.abs(m) / (inch / 8));
  if (Math.abs(m) < foot - inch / 2000) return `${Number((m / inch).toPrecision(3))} in`;
  const feet = Math.floor(eighths / 96);
  const rest = eighths % 96;
  return rest === 0 ? `${sign}${feet} ft` : `${sign}${feet} ft ${inches(rest)}`;
}

/** A length in metres in the units of a system: "us", else metric. */
export const lengthIn = (system: string, m: number): string => (system === "us" ? us(m) : metric(m));
