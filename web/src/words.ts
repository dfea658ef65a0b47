// Numbers as people read them, in the words and digits of the engine's documents.

const N_A_KIP = 4448.2216152605, Pa_A_PSI = 6894.757293168361, M_AN_INCH = 0.0254;
export type System = "US" | "SI";

/** Decimals that leave three figures, none beyond the point for thousands. */
const decimals = (size: number) => (size >= 99.95 ? 0 : size >= 9.995 ? 1 : size >= 0.9995 ? 2 : 3);

export function quantity(value: number, unit: string): string {
  const shown = value === 0 ? 0 : value;
  return `${shown.toFixed(decimals(Math.abs(shown)))} ${unit}`;
}

export const force = (value_N: number | null | undefined, system: System) =>
  value_N == null || !isFinite(value_N) ? "none"
    : system === "US" ? quantity(value_N / N_A_KIP, "kip") : quantity(value_N / 1000, "kN");

/** The need: where there is none, no thrust is enough; that is not "none needed". */
export const needed = (value_N: number | null, system: System) =>
  value_N == null ? "no thrust is enough" : force(value_N, system);

export const newtons = (shown: number, system: System) => shown * (system === "US" ? N_A_KIP : 1000);
/** The digits of force() without its unit. */
export const forceNumber = (value_N: number, system: System) => force(value_N, system).split(" ")[0]!;
export const forceUnit = (system: System) => (system === "US" ? "kip" : "kN");

export const movement = (value_m: number, system: System) =>
  system === "US" ? quantity(value_m / M_AN_INCH, "in") : quantity(value_m * 1000, "mm");

/** A stress as `263 psi compression`: never a bare sign. */
export function stress(value_Pa: number, system: System): string {
  const places = system === "US" ? 0 : 2;
  const size = Math.abs(value_Pa) / (system === "US" ? Pa_A_PSI : 1e6);
  const unit = system === "US" ? "psi" : "MPa";
  const zero = size < 0.5 * 10 ** -places;
  return `${size.toFixed(places)} ${unit}${zero ? "" : value_Pa < 0 ? " compression" : " tension"}`;
}

export const stressSize = (value_Pa: number, system: System) =>
  system === "US" ? `${(value_Pa / Pa_A_PSI).toFixed(0)} psi` : `${(value_Pa / 1e6).toFixed(2)} MPa`;

/** What the worst joint keeps or lacks: lacking as the engine's sentence says it, however little. */
export function margin(look: { open_count: number }, value_Pa: number, system: System): { lacks: boolean; size: string } {
  return { lacks: look.open_count > 0, size: stressSize(Math.abs(value_Pa), system) };
}

const US: Record<string, [number, string]> = {
  N: [N_A_KIP, "kip"], Pa: [Pa_A_PSI * 1000, "ksi"], m: [M_AN_INCH, "in"], "N*m": [1355.817948331, "kip ft"],
  "N/m": [14593.902937, "kip/ft"], "m^2": [M_AN_INCH ** 2, "in²"], day: [1, "days"], "": [1, ""],
};
const SI: Record<string, [number, string]> = {
  N: [1000, "kN"], Pa: [1e6, "MPa"], m: [0.001, "mm"], "N*m": [1000, "kN m"], "N/m": [1000, "kN/m"],
  "m^2": [1e-6, "mm²"], day: [1, "days"], "": [1, ""],
};

/** A value of a check, from SI. */
export function measured(value: number | null, unit: string, system: System): string {
  if (value == null || !isFinite(value)) return "none";
  const [size, name] = (system === "US" ? US : SI)[unit] ?? [1, unit];
  return quantity(value / size, name).trim();
}

export const count = (n: number, one: string, many = `${one}s`) => `${n} ${n === 1 ? one : many}`;
