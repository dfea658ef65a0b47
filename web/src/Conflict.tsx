// The file was changed here and elsewhere: a choice, never a silent loss.
import { signal } from "@preact/signals";
import { Changes } from "./Changes";
import { keepMine, takeTheirs } from "./file";
import * as s from "./state";

const both = signal(false);

export function Conflict() {
  const theirs = s.conflict.value;
  if (!theirs) return null;
  return (
    <section class="conflict" role="alert" aria-label="The file changed outside">
      <p><strong>{s.fileName.value} was changed outside this page</strong> while your text has changes that are not saved.
        Nothing is overwritten until you choose.</p>
      <p class="choices">
        <button type="button" id="keep-mine" onClick={() => void keepMine()}>Keep mine: write it over the other</button>
        <button type="button" id="take-theirs" onClick={takeTheirs}>Take theirs: undo brings mine back</button>
        <button type="button" id="see-both" aria-expanded={both.value} onClick={() => { both.value = !both.value; }}>See both</button>
      </p>
      {both.value && <Changes before={theirs.text} after={s.text.value} names={["on the disk", "in this page"]} />}
    </section>
  );
}
