// The file's text. One history for everything that changes it: typing, handles, the file's own changes.
import * as c from "@codemirror/commands";
import { nextDiagnostic, setDiagnostics, type Diagnostic } from "@codemirror/lint";
import { EditorState, Transaction, type Text } from "@codemirror/state";
import { EditorView, drawSelection, highlightActiveLine, keymap, lineNumbers, type KeyBinding } from "@codemirror/view";
import { effect, signal } from "@preact/signals";
import { inks } from "./inks";
import * as s from "./state";
import type { Fault } from "./types";

export const canUndo = signal(false), canRedo = signal(false);

const looks = EditorView.theme({
  "&": { height: "100%", fontSize: "0.86rem", color: "var(--ink)", backgroundColor: "var(--paper)" },
  "&.cm-focused": { outline: "3px solid var(--need)", outlineOffset: "-3px" },
  ".cm-scroller": { fontFamily: "ui-monospace, 'DejaVu Sans Mono', monospace", lineHeight: "1.55" },
  ".cm-content": { caretColor: "var(--ink)", padding: "8px 0" },
  ".cm-cursor": { borderLeftColor: "var(--ink)", borderLeftWidth: "2px" },
  ".cm-gutters": { backgroundColor: "var(--paper)", color: "var(--soft)", borderRight: "1px solid var(--line)" },
  ".cm-activeLine, .cm-activeLineGutter": { backgroundColor: "color-mix(in srgb, var(--band) 38%, transparent)" },
  "&.cm-focused > .cm-scroller > .cm-selectionLayer .cm-selectionBackground, .cm-selectionBackground":
    { backgroundColor: "var(--band)" },
  ".cm-lintRange-error": { backgroundImage: "none", textDecoration: "underline wavy var(--most) 2px",
                           textUnderlineOffset: "3px", backgroundColor: "var(--clash)" },
  ".ink-key": { color: "var(--need)" },
  ".ink-comment": { color: "var(--soft)", fontStyle: "italic" },
  ".cm-tooltip": { backgroundColor: "var(--paper)", color: "var(--ink)", border: "1px solid var(--most)" },
  ".cm-diagnostic": { fontFamily: "system-ui, sans-serif", borderLeft: "4px solid var(--most)", maxWidth: "36rem" },
});

// The keys of plain text. Tab is not among them: a page must not hold the keyboard.
const keys: KeyBinding[] = [
  { key: "ArrowLeft", run: c.cursorCharLeft, shift: c.selectCharLeft },
  { key: "ArrowRight", run: c.cursorCharRight, shift: c.selectCharRight },
  { key: "Mod-ArrowLeft", run: c.cursorGroupLeft, shift: c.selectGroupLeft },
  { key: "Mod-ArrowRight", run: c.cursorGroupRight, shift: c.selectGroupRight },
  { key: "ArrowUp", run: c.cursorLineUp, shift: c.selectLineUp },
  { key: "ArrowDown", run: c.cursorLineDown, shift: c.selectLineDown },
  { key: "PageUp", run: c.cursorPageUp, shift: c.selectPageUp },
  { key: "PageDown", run: c.cursorPageDown, shift: c.selectPageDown },
  { key: "Home", run: c.cursorLineBoundaryBackward, shift: c.selectLineBoundaryBackward },
  { key: "End", run: c.cursorLineBoundaryForward, shift: c.selectLineBoundaryForward },
  { key: "Mod-Home", run: c.cursorDocStart, shift: c.selectDocStart },
  { key: "Mod-End", run: c.cursorDocEnd, shift: c.selectDocEnd },
  { key: "Mod-a", run: c.selectAll },
  { key: "Enter", run: c.insertNewlineKeepIndent },
  { key: "Backspace", run: c.deleteCharBackward, shift: c.deleteCharBackward },
  { key: "Delete", run: c.deleteCharForward },
  { key: "Mod-Backspace", run: c.deleteGroupBackward },
  { key: "Mod-Delete", run: c.deleteGroupForward },
  { key: "Mod-z", run: c.undo, shift: c.redo, preventDefault: true },
  { key: "Mod-y", run: c.redo },
  { key: "F8", run: nextDiagnostic },
];

let view: EditorView;

const heard = EditorView.updateListener.of((update) => {
  if (update.docChanged) s.text.value = update.state.doc.toString();
  canUndo.value = c.undoDepth(update.state) > 0;
  canRedo.value = c.redoDepth(update.state) > 0;
});

/** Into a shadow root: the editor's styles are then sheets of the root, which the page's policy allows. */
export function mountEditor(host: HTMLElement) {
  const root = host.shadowRoot ?? host.attachShadow({ mode: "open" });
  view = new EditorView({
    parent: root as unknown as HTMLElement,
    root,
    state: EditorState.create({
      doc: s.text.peek(),
      extensions: [
        lineNumbers(), c.history(), drawSelection(), highlightActiveLine(), looks, heard,
        inks, keymap.of(keys), EditorState.tabSize.of(2),
        EditorView.contentAttributes.of({ "aria-label": "Text of the bridge file", spellcheck: "false", tabindex: "0" }),
      ],
    }),
  });
  effect(() => underline(s.faults.value));
}

/** The offset of a column that counts characters, as the reader of the file does. */
function offset(doc: Text, line: number, column: number): number {
  const at = doc.line(Math.max(1, Math.min(line || 1, doc.lines)));
  return at.from + [...at.text].slice(0, Math.max(0, (column || 1) - 1)).join("").length;
}

function underline(faults: Fault[]) {
  const doc = view.state.doc;
  const list = faults.map((fault): Diagnostic => {
    const line = doc.line(Math.max(1, Math.min(fault.line || 1, doc.lines)));
    const from = offset(doc, fault.line, fault.column);
    let to = fault.to_line ? offset(doc, fault.to_line, fault.to_column) : line.to;
    if (to <= from) to = line.to;
    return { from: to > from ? from : line.from, to: Math.max(to, from), severity: "error", message: fault.text };
  });
  view.dispatch(setDiagnostics(view.state, list.sort((a, b) => a.from - b.from)));
}

/** Another text in place of this one: only what differs is touched, so the cursor and undo keep sense. */
export function replaceText(next: string, remembered = true) {
  const now = view.state.doc.toString();
  if (now === next) return;
  let head = 0;
  const most = Math.min(now.length, next.length);
  while (head < most && now[head] === next[head]) head++;
  let tail = 0;
  while (tail < most - head && now[now.length - 1 - tail] === next[next.length - 1 - tail]) tail++;
  view.dispatch({
    changes: { from: head, to: now.length - tail, insert: next.slice(head, next.length - tail) },
    annotations: [Transaction.addToHistory.of(remembered), Transaction.userEvent.of("input.set")],
  });
}

export const undoText = () => void c.undo(view);
export const redoText = () => void c.redo(view);

export function goTo(line: number, column = 1) {
  const at = offset(view.state.doc, line, column);
  view.dispatch({ selection: { anchor: at }, effects: EditorView.scrollIntoView(at, { y: "center" }) });
  view.focus();
}
