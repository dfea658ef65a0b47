// The file's text. One history for everything that changes it: typing, handles, the file's own changes.
import * as c from "@codemirror/commands";
import { EditorState, Transaction } from "@codemirror/state";
import { EditorView, drawSelection, highlightActiveLine, keymap, lineNumbers, type KeyBinding } from "@codemirror/view";
import { effect, signal } from "@preact/signals";
import { inks } from "./inks";
import { marks, nextFault, offset, setFaults } from "./marks";
import * as s from "./state";

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
  ".fault-mark, .fault-line": { textDecoration: "underline wavy var(--most) 2px", textUnderlineOffset: "3px",
                                backgroundColor: "var(--clash)" },
  ".ink-key": { color: "var(--need)" },
  ".ink-comment": { color: "var(--soft)", fontStyle: "italic" },
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
  { key: "F8", run: nextFault },
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
        inks, marks, keymap.of(keys), EditorState.tabSize.of(2),
        EditorView.contentAttributes.of({ "aria-label": "Text of the bridge file", spellcheck: "false", tabindex: "0" }),
      ],
    }),
  });
  effect(() => view.dispatch({ effects: setFaults.of(s.faults.value) }));
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
