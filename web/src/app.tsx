// The page: strips of one sheet, as panels of one deck.
import { effect } from "@preact/signals";
import { render } from "preact";
import { startDrawing } from "./desk";
import { redoText, undoText } from "./editor";
import { save, start } from "./file";
import { keepLink, readLink } from "./link";
import * as s from "./state";
import { startTheme } from "./theme";
import { Answer } from "./Answer";
import { Compare } from "./Compare";
import { Conflict } from "./Conflict";
import { Head } from "./Head";
import { Moment } from "./Moment";
import { Place, Picture } from "./Picture";
import { Side } from "./Side";
import { Start } from "./Start";
import { Thrust } from "./Thrust";

function Pictures() {
  return (
    <div class="pictures"><div class="pictures-in">
      <Picture id="bridge" after={<Moment />} />
      <Picture id="deck" />
      <Picture id="map" hint="Choose a cell: its joint and moment are shown below." />
      <Place />
      <div class="pair">
        <Picture id="joint" />
        <Picture id="split" />
      </div>
      <Picture id="window" />
      <Picture id="plan" />
    </div></div>
  );
}

function Page() {
  const drawing = s.facts.value !== null;
  return (
    <>
      <a class="skip" href="#answer">To the answer</a>
      <Head />
      <Conflict />
      <div class="sheet">
        <main>
          {s.starting.value && !drawing ? <Start /> : drawing ? <><Thrust /><Answer /><Pictures /></> : <Waiting />}
        </main>
        <Side />
      </div>
      <footer>
        <p>
          A proposal to a licensed engineer, never an approval: what stands here is preliminary until a licensed
          engineer has checked it. No published provision is known that covers decks compressed this way; every rule
          and limit is borrowed, and named with its clause. People work below, on and inside what is computed here,
          next to stored force.
        </p>
      </footer>
      <Compare />
      <p class="hidden" role="status" aria-live="polite" id="news">{s.news.value}</p>
    </>
  );
}

const Waiting = () => (
  <p class="loading">
    {s.trouble.value ? `No bridge can be drawn: ${s.trouble.value}`
      : s.faults.value.length ? "There is no bridge to draw yet: the text has errors, listed beside." : "Reading the bridge …"}
  </p>
);

function keys(event: KeyboardEvent) {
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
  const key = event.key.toLowerCase();
  const typing = (event.target as Element).closest?.("input, textarea, select, .editor") != null;
  if (key === "s") void save();
  else if (key === "z" && !typing) event.shiftKey ? redoText() : undoText();
  else if (key === "y" && !typing) redoText();
  else return;
  event.preventDefault();
}

startTheme();
readLink();
const page = document.getElementById("page")!;
page.textContent = "";
render(<Page />, page);
effect(() => { document.title = s.facts.value ? `${s.facts.value.name} – clench` : "clench"; });
addEventListener("keydown", keys);
startDrawing();
keepLink();
start().catch((error) => { s.trouble.value = `the server does not answer: ${String(error)}`; });
