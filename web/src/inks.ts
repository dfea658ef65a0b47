// The inks of a YAML line, by the few signs the bridge file uses: keys, comments, marks of lists.
import { RangeSetBuilder } from "@codemirror/state";
import { Decoration, ViewPlugin, type DecorationSet, type EditorView, type ViewUpdate } from "@codemirror/view";

const key = Decoration.mark({ class: "ink-key" });
const comment = Decoration.mark({ class: "ink-comment" });

/** Where the comment of a line starts: a # at its start or behind a blank, outside quotes. */
function commentAt(line: string): number {
  let quote = "";
  for (let i = 0; i < line.length; i++) {
    const c = line[i]!;
    if (quote) { if (c === quote) quote = ""; }
    else if (c === '"' || (c === "'" && !/\w/.test(line[i - 1] ?? ""))) quote = c;
    else if (c === "#" && (i === 0 || /\s/.test(line[i - 1]!))) return i;
  }
  return -1;
}

function decorate(view: EditorView): DecorationSet {
  const marks = new RangeSetBuilder<Decoration>();
  for (const { from, to } of view.visibleRanges) {
    for (let at = from; at <= to; ) {
      const line = view.state.doc.lineAt(at), hash = commentAt(line.text);
      const code = hash < 0 ? line.text : line.text.slice(0, hash);
      for (const found of code.matchAll(/(^\s*(?:- )*|[{,]\s*)([\w-]+)(?=:(?:\s|$))/g)) {
        const start = line.from + found.index + found[1]!.length;
        marks.add(start, start + found[2]!.length, key);
      }
      if (hash >= 0) marks.add(line.from + hash, line.to, comment);
      at = line.to + 1;
    }
  }
  return marks.finish();
}

export const inks = ViewPlugin.fromClass(class {
  decorations: DecorationSet;
  constructor(view: EditorView) { this.decorations = decorate(view); }
  update(update: ViewUpdate) {
    if (update.docChanged || update.viewportChanged) this.decorations = decorate(update.view);
  }
}, { decorations: (plugin) => plugin.decorations });
