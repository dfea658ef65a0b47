// A field that shows a value and takes another by Enter or on leaving. What is being typed stays, whatever
// arrives meanwhile; Escape gives it up.
import { useEffect, useState } from "preact/hooks";

interface Props {
  id: string;
  value: string;
  label?: string;
  fault?: string | undefined;
  numeric?: boolean;
  step?(by: 1 | -1, big: boolean): void;
  take(value: string): void;
}

export function Typed({ id, value, label, fault, numeric, step, take }: Props) {
  const [draft, write] = useState<string | null>(null);
  useEffect(() => write(null), [value]);
  return (
    <input id={id} type="text" inputMode={numeric ? "decimal" : "text"} value={draft ?? value} autocomplete="off"
      aria-label={label} aria-invalid={fault ? true : undefined}
      onInput={(e) => write(e.currentTarget.value)}
      onChange={(e) => { if (e.currentTarget.value !== value) take(e.currentTarget.value); else write(null); }}
      onKeyDown={(e) => {
        if (e.key === "Escape") write(null);
        if (!step || (e.key !== "ArrowUp" && e.key !== "ArrowDown")) return;
        e.preventDefault();
        step(e.key === "ArrowUp" ? 1 : -1, e.shiftKey);
      }} />
  );
}
