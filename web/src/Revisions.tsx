// Texts that are kept beside the file, to come back to and to compare with.
import { signal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import * as api from "./api";
import { replaceText } from "./editor";
import * as s from "./state";

const note = signal("");

async function refresh() {
  try {
    s.revisions.value = await api.listRevisions();
  } catch (error) {
    s.told(`The revisions could not be read: ${error instanceof Error ? error.message : String(error)}`);
  }
}

async function keep(event: Event) {
  event.preventDefault();
  try {
    await api.keepRevision(s.text.peek(), note.peek().trim());
    s.told("Revision kept.");
    note.value = "";
    await refresh();
  } catch (error) {
    s.told(`Not kept: ${error instanceof Error ? error.message : String(error)}`);
  }
}

async function withText(id: number, work: (revision: Awaited<ReturnType<typeof api.readRevision>>) => void) {
  try {
    work(await api.readRevision(id));
  } catch (error) {
    s.told(`The revision could not be read: ${error instanceof Error ? error.message : String(error)}`);
  }
}

const when = (text: string) => {
  const day = new Date(text);
  return isNaN(day.getTime()) ? text : day.toLocaleString(undefined, { dateStyle: "medium", timeStyle: "short" });
};

export function Revisions() {
  useEffect(() => { if (s.tab.value === "revisions") void refresh(); }, [s.tab.value]);
  return (
    <>
      <form class="keep" onSubmit={(e) => void keep(e)}>
        <label for="note">Keep this text as a revision, with a note</label>
        <span class="row">
          <input id="note" type="text" maxLength={200} value={note.value} placeholder="what is tried here"
            onInput={(e) => { note.value = e.currentTarget.value; }} />
          <button type="submit" id="keep" class="chief">Keep</button>
        </span>
      </form>
      {s.revisions.value.length === 0 && <p class="fine">None yet. They are kept beside the file.</p>}
      <ol class="revisions">
        {s.revisions.value.map((r) => (
          <li key={r.id}>
            <p><strong>{r.note || "without a note"}</strong><small>{when(r.when)}</small></p>
            <p class="choices">
              <button type="button" class="compare" onClick={() => void withText(r.id, (one) => { s.comparing.value = one; })}>Compare with now</button>
              <button type="button" onClick={() => void withText(r.id, (one) => { replaceText(one.text ?? ""); s.told("The revision's text is in the editor, not saved yet. Undo brings the text before back."); })}>Bring back</button>
            </p>
          </li>
        ))}
      </ol>
    </>
  );
}
