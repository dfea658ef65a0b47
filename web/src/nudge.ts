// One step of a value as it is written: "8 ft 6 in" to "8 ft 7 in", "0.5 in" to "0.6 in".

/** The value one step up or down; ten steps when big; null where it does not read. */
export function nudge(value: string, by: 1 | -1, big = false): string | null {
  const steps = by * (big ? 10 : 1);
  const feet = /^(-?\d+) ft (\d+(?:\.\d+)?) in$/.exec(value);
  if (feet) return feetAndInches(Number(feet[1]) * 12 + Number(feet[2]) + steps);
  const plain = /^(-?\d+(?:\.(\d+))?)( ?.*)$/.exec(value);
  if (!plain || /^\s*\//.test(plain[3]!)) return null; // a fraction: by hand
  if (/^ ?ft$/.test(plain[3]!) && !plain[2]) return feetAndInches(Number(plain[1]) * 12 + 6 * steps);
  const places = plain[2]?.length ?? 0;
  return `${(Number(plain[1]) + steps * 10 ** -places).toFixed(places)}${plain[3]}`;
}

function feetAndInches(inches: number): string {
  const feet = Math.floor(inches / 12), rest = Number((inches - 12 * feet).toFixed(4));
  return rest ? `${feet} ft ${rest} in` : `${feet} ft`;
}
