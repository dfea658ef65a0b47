// What is in the form, kept as it is typed: telephones drop pages that are not in sight.
import { signal } from "@preact/signals";
import * as keep from "./keep";
import * as s from "./state";
import type { Day, Words } from "./types";

export const fields = signal<Words>({});
export const step = signal(0);
export const phase = signal("pump");
export const time = signal(""); // of datetime-local; "": now
export const fault = signal<{ key: string; text: string } | null>(null);

const draftKey = () => `draft ${s.job.value?.job ?? ""}`;
let timer = 0;
function soon() {
  clearTimeout(timer);
  timer = setTimeout(() => void keep.setWord(draftKey(), JSON.stringify({ fields: fields.value, step: step.value, phase: phase.value })), 250) as unknown as number;
}

export async function restore() {
  const text = await keep.word(draftKey());
  if (text) {
    const draft = JSON.parse(text);
    fields.value = draft.fields;
    step.value = draft.step;
    phase.value = draft.phase;
    return;
  }
  const last = s.rows.value.at(-1);
  if (last) { step.value = Number(last.words.step); phase.value = last.words.phase ?? "pump"; }
}

export function set(key: string, value: string) {
  fields.value = { ...fields.value, [key]: value };
  if (fault.value?.key === key) fault.value = null;
  soon();
}
export function setStep(value: number) {
  step.value = Math.max(0, Math.min(s.day.value?.steps.length ?? 0, value));
  if (phase.value === "held") phase.value = "pump";
  soon();
}
export function setPhase(value: string) { phase.value = value; soon(); }
export function minus(key: string) {
  const text = (fields.value[key] ?? "").trim();
  set(key, text.startsWith("-") ? text.slice(1) : `-${text}`);
}
export function clear() {
  fields.value = {};
  time.value = "";
  fault.value = null;
  soon();
}

/** "0,46" of a keyboard without a point is 0.46; "1,250" could be two numbers and is left for the engine to refuse. */
function pointed(number: string): string {
  const parts = number.split(",");
  return parts.length === 2 && parts[1]!.length !== 3 ? parts.join(".") : number;
}

/** A number alone gets the plan's unit; another unit may be typed behind it. */
export function withUnit(text: string, unit: string): string {
  const typed = text.trim().replace(/^\u2212/, "-");
  if (!typed || typed === "-") return "-";
  return /^[+-]?[\d.,]+$/.test(typed) ? `${pointed(typed)} ${unit}` : typed;
}

const two = (n: number) => String(Math.abs(n)).padStart(2, "0");
/** The moment with this device's difference to UTC behind it. */
export function stamp(at: Date): string {
  const ahead = -at.getTimezoneOffset(), sign = ahead < 0 ? "-" : "+";
  const local = new Date(at.getTime() + ahead * 60000).toISOString().slice(0, 19);
  return `${local}${sign}${two(Math.trunc(ahead / 60))}:${two(ahead % 60)}`;
}

export const unitOf = (day: Day, key: string) =>
  key.startsWith("pressure") ? day.pressure_unit : key.startsWith("move") ? day.move_unit
    : key === "cell" ? day.force_unit : day.temperature_unit;
export const shownUnit = (unit: string) => unit.replace("deg", "°");

export function words(day: Day): Words {
  const all: Words = {
    time: stamp(time.value ? new Date(time.value) : new Date()),
    step: String(step.value), phase: phase.value, who: s.who.value.trim(), remark: (fields.value.remark ?? "").trim(),
  };
  const keys = [...day.sets.map((_, i) => `pressure ${i + 1}`), ...day.dials.map((_, i) => `move ${i + 1}`), "deck", "girder", "cell"];
  for (const key of keys) all[key] = withUnit(fields.value[key] ?? "", unitOf(day, key));
  return all;
}
