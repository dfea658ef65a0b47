// What to do now: a word, a shape, the reason; the graver of this device and the log in front.
import * as s from "./state";
import type { Call } from "./types";

// Go on: an arrow. Read again: a turned arrow. Hold: two bars. Stop: eight sides.
const shape: Record<Call, string> = {
  "go on": "M6 20h20v-9l16 13-16 13v-9H6z",
  "read again": "M24 8a16 16 0 1 0 16 16h-6a10 10 0 1 1-10-10v7l12-10L24 1z",
  "hold": "M9 6h11v36H9zM28 6h11v36H28z",
  "stop": "M15 3h18l12 12v18L33 45H15L3 33V15z",
};
export const Shape = ({ call }: { call: Call }) =>
  <svg class="shape" viewBox="0 0 48 48" aria-hidden="true"><path d={shape[call]} /></svg>;

export const slug = (call: Call) => call.replace(" ", "-");
const hour = (time: string | undefined) => /T(\d\d:\d\d)/.exec(time ?? "")?.[1] ?? "";

export function Verdict() {
  const said = s.verdict.value, row = s.last.value;
  if (row && !said)
    return <section class={`verdict of-${slug("hold")}`} id="verdict" tabIndex={-1} data-call="hold"><h2><Shape call="hold" /> <span id="call">hold</span></h2>
      <p id="reason">This device cannot judge its readings: pump still, ask who leads the jacking.{row.log && ` The log said ${row.log.call} of the last one: ${row.log.reason}`}</p></section>;
  if (!said || !row)
    return <section class="verdict none" id="verdict" tabIndex={-1}><h2>No reading yet</h2><p>The zero reading comes first: nothing pumped, every gauge and dial read.</p></section>;
  const { here, log, call, first, refused } = said;
  const measures = [...new Set(here.causes.map((c) => c.measure).filter((m): m is string => !!m))];
  return (
    <section class={`verdict of-${slug(call)}`} id="verdict" tabIndex={-1} aria-live="polite" data-call={call}>
      <h2><Shape call={call} /> <span id="call">{call}</span></h2>
      <p class="of">On {row.number ? `record ${row.number}` : "the reading kept on this device"}: {row.words.step === "0" ? "zero reading" : `step ${row.words.step}`}, {row.words.phase}, {hour(row.words.time)}{row.words.who && `, ${row.words.who}`}</p>
      {first && <p class="both" id="first">When it was kept this device said <b>{first}</b>, by what it knew then; by all it knows now it says <b>{here.call}</b>. The graver counts until the next reading.</p>}
      {refused && <p class="both" id="held">A reading that the server refused said <b>{refused}</b> on this device. It counts until someone has settled it below.</p>}
      {log && <p class="both" id="both">This device says <b>{here.call}</b>, the log said <b>{log.call}</b> when it took the reading, by what stood in it then. The graver counts until the next reading. The log's reason: {log.reason}</p>}
      {here.findings.length === 0 ? <p id="reason">{here.reason}</p> : <div id="reason">
        <p>{here.act}.</p>
        <ul>{here.findings.filter((f) => f.words).map((f, i) => <li key={i}>{f.words}</li>)}</ul></div>}
      {here.causes.length > 0 && <div class="causes">
        <h3>It may be</h3>
        <ul>{here.causes.map((c) => <li key={c.cause}>{c.cause}</li>)}</ul>
        {measures.length > 0 && <><h3>Measure to tell</h3><ul>{measures.map((m) => <li key={m}>{m}</li>)}</ul></>}
      </div>}
    </section>
  );
}
