// A file without runs leaves the gaps to the engine. This writes them out where they are, so that each
// can be moved: one run a unit, units end at link slabs, the gap in mid-span of the middle span.
import { replaceText } from "./editor";
import * as s from "./state";

interface Span { length: number; unit: string; ends: boolean }

function spans(): Span[] | null {
  const values = new Map((s.facts.peek()?.values ?? []).map((v) => [v.path, v.shown]));
  const list: Span[] = [];
  for (let i = 1; values.has(`spans[${i}].length`); i++) {
    const text = values.get(`spans[${i}].length`)!;
    const feet = /^(\d+(?:\.\d+)?) ft (\d+(?:\.\d+)?) in$/.exec(text), plain = /^(\d+(?:\.\d+)?) ?(ft|m)$/.exec(text);
    const last = !values.has(`spans[${i + 1}].length`);
    const ends = last || values.get(`spans[${i}].pier`) === "link slab";
    if (feet) list.push({ length: Number(feet[1]) + Number(feet[2]) / 12, unit: "ft", ends });
    else if (plain) list.push({ length: Number(plain[1]), unit: plain[2]!, ends });
    else return null;
  }
  return list.length && list.every((one) => one.unit === list[0]!.unit) ? list : null;
}

export function gapLines(list: Span[]): string {
  let lines = "runs:\n", first = 0, from = 0;
  list.forEach((span, i) => {
    if (!span.ends) return;
    const unit = list.slice(first, i + 1), middle = Math.floor((unit.length - 1) / 2);
    const before = unit.slice(0, middle).reduce((sum, one) => sum + one.length, 0);
    const at = from + before + unit[middle]!.length / 2;
    lines += `  - {from_span: ${first + 1}, to_span: ${i + 1}, gap_at: ${Number(at.toFixed(3))} ${span.unit}}\n`;
    from += unit.reduce((sum, one) => sum + one.length, 0);
    first = i + 1;
  });
  return lines;
}

export function placeGaps() {
  const list = spans();
  if (!list) return s.told("The gaps cannot be placed from here: write the group runs into the text.");
  const text = s.text.peek();
  replaceText(`${text}${text.endsWith("\n") ? "" : "\n"}\n${gapLines(list)}`);
  s.told("The gaps stand in the text now, each with its handle.");
}
