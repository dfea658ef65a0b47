// The file on the disk: read, watched, saved. Nothing is written without a word, nothing is lost silently.
import { batch, effect } from "@preact/signals";
import * as api from "./api";
import { read } from "./desk";
import { replaceText } from "./editor";
import * as s from "./state";

const typing_ms = 180; // after the last key

function taken(text: string, mark: string, remembered: boolean) {
  batch(() => {
    s.savedText.value = text;
    s.mark.value = mark;
    s.conflict.value = null;
    replaceText(text, remembered);
  });
}

/** The file changed outside this page. */
function changed(answer: { text: string; mark: string }) {
  if (answer.text === s.text.peek()) {
    batch(() => { s.savedText.value = answer.text; s.mark.value = answer.mark; s.conflict.value = null; });
  } else if (s.unsaved.peek()) {
    s.conflict.value = { text: answer.text, mark: answer.mark };
  } else {
    taken(answer.text, answer.mark, true);
    s.told("The file was changed outside this page; the change is taken in. Undo brings the text before back.");
  }
}

/** Other programs write in pieces: a change counts when it has stood for a moment. */
async function whole(answer: api.FileAnswer): Promise<api.FileAnswer> {
  for (let look = 0; look < 20; look++) {
    await new Promise((done) => setTimeout(done, 80));
    const now = await api.readFile(null);
    if (!now || now.mark === answer.mark) break;
    answer = now;
  }
  return answer;
}

async function watch() {
  for (let pause = 1000; ; ) {
    try {
      const mark = s.conflict.peek()?.mark ?? s.mark.peek() ?? "";
      const answer = await api.readFile(mark);
      pause = 1000;
      s.trouble.value = s.trouble.peek().startsWith("the server") ? "" : s.trouble.peek();
      const known = s.conflict.peek()?.mark ?? s.mark.peek();
      if (!answer || answer.mark === known) continue;
      const change = await whole(answer);
      if (change.mark !== s.mark.peek()) changed(change);
      else s.conflict.value = null; // our own save, or the change outside was taken back
    } catch (error) {
      s.trouble.value = error instanceof api.Refused ? `the server cannot read the file: ${error.message}`
        : "the server does not answer: is clench serve still running? Your text is kept in this page.";
      await new Promise((done) => setTimeout(done, pause));
      pause = Math.min(pause * 2, 10000);
    }
  }
}

export async function save(over?: string) {
  const text = s.text.peek(), mark = over ?? s.mark.peek() ?? "new";
  if (mark === "new" && text.trim() === "") return s.told("Nothing is written yet: there is nothing to save.");
  try {
    const saved = await api.writeFile(text, mark);
    if ("conflict" in saved) {
      s.conflict.value = saved.conflict;
      return;
    }
    batch(() => { s.savedText.value = text; s.mark.value = saved.mark; s.conflict.value = null; });
    s.told(`Saved ${s.fileName.peek()}.`);
  } catch (error) {
    s.told(`Not saved: ${error instanceof Error ? error.message : String(error)}`);
  }
}

export const keepMine = () => save(s.conflict.peek()!.mark);
export const takeTheirs = () => {
  const { text, mark } = s.conflict.peek()!;
  taken(text, mark, true);
  s.told("The file's text is taken in. Undo brings yours back.");
};

export async function start() {
  const file = await api.firstFile;
  if (!file) return;
  s.fileName.value = file.name;
  taken(file.text, file.mark, false);
  s.starting.value = file.mark === "new" && file.text === "";
  if (!s.starting.peek()) void read(file.text, file.text ? api.firstTree.then((tree) => tree!) : undefined);
  let before = file.text, waiting = 0;
  effect(() => {
    const text = s.text.value;
    if (text === before) return;
    before = text;
    if (text !== "") s.starting.value = false;
    clearTimeout(waiting);
    waiting = window.setTimeout(() => read(text), typing_ms);
  });
  addEventListener("beforeunload", (event) => { if (s.unsaved.peek()) event.preventDefault(); });
  void watch();
}
