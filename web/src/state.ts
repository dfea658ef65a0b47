// The one store: what the page knows. Everything shown follows from these.
import { computed, signal } from "@preact/signals";
import type { CheckList, Facts, Fault, Look, Revision, Worst } from "./types";

// The file and its text.
export const fileName = signal("");
export const mark = signal<string | null>(null); // of what is on the disk, as last heard
export const savedText = signal(""); // the text of that mark
export const text = signal(""); // as it stands in the editor
export const unsaved = computed(() => mark.value !== null && text.value !== savedText.value);
export const conflict = signal<{ text: string; mark: string } | null>(null);
export const starting = signal(false); // no file yet: the start form

// The bridge of the last good text.
export const facts = signal<Facts | null>(null);
export const goodText = signal("");
export const faults = signal<Fault[]>([]);
export const stale = computed(() => faults.value.length > 0);
export const reading = signal(false);

// What is looked at.
export const thrust_N = signal(0);
export const moved = signal(false); // thrust set by hand: it stays when the bridge changes
export const line = signal(0);
export const time = signal(0);
export const joint = signal(0);
export const units = signal(0); // 0 the file's, 1 US, 2 SI

// What the engine says to it.
export const look = signal<Look | null>(null);
export const checks = signal<CheckList | null>(null);
export const checkedText = signal(""); // of which text
export const chosenCheck = signal(-1);
export const trouble = signal(""); // the engine's or the server's, in words
export const news = signal(""); // one line on what was just done

// The working side.
export type Tab = "text" | "handles" | "checks" | "revisions";
export const tab = signal<Tab>("checks");
export const revisions = signal<Revision[]>([]);
export const comparing = signal<Revision | null>(null);

export const theLine = computed(() => facts.value?.lines[line.value] ?? null);
export const system = computed(() => facts.value?.units ?? "US");
export const worst = computed<Worst | null>(() => look.value?.worst ?? null);

export function told(words: string) {
  news.value = words;
}
