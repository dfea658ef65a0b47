// Errors of the text, underlined where they stand; they move with the text until the next reading.
import { StateEffect, StateField, type EditorState, type Extension, type Text } from "@codemirror/state";
import { Decoration, EditorView, type Command, type DecorationSet } from "@codemirror/view";
import type { Fault } from "./types";

/** The offset of a place whose column counts characters, as the reader of the file does. */
export function offset(doc: Text, line: number, column: number): number {
  const at = doc.line(Math.max(1, Math.min(line || 1, doc.lines)));
  return at.from + [...at.text].slice(0, Math.max(0, (column || 1) - 1)).join("").length;
}

function mark(doc: Text, fault: Fault) {
  const line = doc.line(Math.max(1, Math.min(fault.line || 1, doc.lines)));
  const attributes = { title: fault.text };
  if (!line.length) return Decoration.line({ class: "fault-line", attributes }).range(line.from);
  let from = offset(doc, fault.line, fault.column);
  let to = fault.to_line ? offset(doc, fault.to_line, fault.to_column) : line.to;
  if (to <= from) to = line.to;
  if (to <= from) from = line.from;
  return Decoration.mark({ class: "fault-mark", attributes }).range(from, to);
}

export const setFaults = StateEffect.define<Fault[]>();

const field = StateField.define<DecorationSet>({
  create: () => Decoration.none,
  update(set, transaction) {
    let now = set.map(transaction.changes);
    for (const effect of transaction.effects)
      if (effect.is(setFaults)) now = Decoration.set(effect.value.map((f) => mark(transaction.state.doc, f)), true);
    return now;
  },
  provide: (field) => EditorView.decorations.from(field),
});
export const marks: Extension = field;

function places(state: EditorState): number[] {
  const list: number[] = [];
  state.field(field).between(0, state.doc.length, (from) => void list.push(from));
  return list;
}

/** To the next error behind the cursor, or the first. */
export const nextFault: Command = (view) => {
  const list = places(view.state), head = view.state.selection.main.head;
  const at = list.find((from) => from > head) ?? list[0];
  if (at === undefined) return false;
  view.dispatch({ selection: { anchor: at }, effects: EditorView.scrollIntoView(at, { y: "center" }) });
  return true;
};
