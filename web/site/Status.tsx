// The network, the store of this device, and what a person must look at.
import { exported } from "./net";
import * as s from "./state";
import { clock_s, net, send, shorter } from "./sync";
import * as t from "./typed";
import type { Waiting } from "./types";

const hour = (at: Date) => `${String(at.getHours()).padStart(2, "0")}:${String(at.getMinutes()).padStart(2, "0")}`;

function save(name: string, bytes: Blob) {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(bytes);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10000);
}

const asText = (list: Waiting[]) => new Blob([JSON.stringify(list.map(({ kind, at, id, of, words, answer }) => ({ kind, at, id, of, words, answer })), null, 2)], { type: "application/json" });

export function Status() {
  const state = net.value, waits = s.open.value.length;
  const line = state.state === "up" ? "Connected" : state.state === "asking" ? "Asking the server" : `Not connected since ${hour(state.since)}`;
  return (
    <p class={`status ${state.state}`} id="status" role="status" data-net={state.state}>
      <b>{line}.</b> <span id="counts">Kept on this device: {waits}, sent: {s.sentCount.value}.</span>
      {state.state === "down" && <small>{state.why}. What you keep is judged here and sent later.</small>}
    </p>
  );
}

function correct(item: Waiting) {
  const { step, phase, time, who, remark, ...values } = item.words;
  t.fields.value = { ...Object.fromEntries(Object.entries(values).filter(([, v]) => v !== "-")), remark: remark ?? "" };
  t.setStep(Number(step));
  t.setPhase(phase ?? "pump");
  if (time) t.time.value = time.slice(0, 19);
  if (who) void s.setWho(who);
  document.getElementById("step")?.focus();
}

function Refusal({ item }: { item: Waiting }) {
  return (
    <li>
      <p><b>{item.kind === "reading" ? `The reading of ${item.words.time?.slice(11, 16)}, step ${item.words.step}` : "A strike"} was not taken by the log.</b> {item.answer}</p>
      <p class="pair">
        {item.kind === "reading" && <button type="button" onClick={() => correct(item)}>Put into the form</button>}
        <button type="button" onClick={() => void s.giveUp(item)}>Put away</button>
      </p>
    </li>
  );
}

/** Whatever needs a person stands above all else. */
export function Alarms() {
  const strange = s.strange.value, ahead = clock_s.value;
  return (
    <div class="alarms">
      {s.trouble.value && <div class="alarm" role="alert"><p>{s.trouble.value}</p></div>}
      {shorter.value && <div class="alarm" role="alert"><p>{shorter.value}</p></div>}
      {s.refused.value.length > 0 && <ul class="alarm" id="refused" role="alert">{s.refused.value.map((item) => <Refusal key={item.order} item={item} />)}</ul>}
      {strange.length > 0 && <div class="alarm" id="strange"><p><b>{strange.length} of another log</b> {strange.length === 1 ? "is" : "are"} kept on this device and not sent: this server has another plan open.</p>
        <p><button type="button" onClick={() => save("readings.json", asText(strange))}>Save them as a file</button></p></div>}
      {Math.abs(ahead) > 20 && <div class="alarm"><p>The clock of this device is {Math.abs(ahead)} s {ahead > 0 ? "ahead of" : "behind"} the server's. Set it: readings of two devices are ordered by their times.</p></div>}
      {s.kept.value === false && net.value.state === "down" && s.open.value.length > 0 && <div class="alarm"><p>This browser does not promise to keep what is stored here. Do not clear its data before all is sent.</p></div>}
    </div>
  );
}

export function Foot() {
  const day = s.day.value;
  return (
    <footer class="card">
      <h2>Before anything else</h2>
      <ul>{day?.cautions.map((c) => <li key={c}>{c}</li>)}</ul>
      <p class="pair">
        <button type="button" disabled={net.value.state !== "up"} onClick={() => void exported().then((b) => save("readings.csv", b)).catch((e) => { s.trouble.value = `The log did not come: ${(e as Error).message}`; })}>The log as CSV</button>
        {s.mine.value.length > 0 && <button type="button" onClick={() => save("kept-here.json", asText(s.mine.value))}>What is kept here, as a file</button>}
        {s.open.value.length > 0 && <button type="button" onClick={() => void send()}>Send now</button>}
      </p>
      <p class="small">What is not sent yet lies in this browser alone. Clearing the site data of this browser takes it away; nothing can prevent that.</p>
    </footer>
  );
}
