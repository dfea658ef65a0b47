// The readings, the last first; a strike asks why and who.
import { signal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import * as s from "./state";
import { send } from "./sync";
import type { Call } from "./types";
import { Shape } from "./Verdict";

const striking = signal<s.Row | null>(null);
const all = signal(false);
const SHOWN = 12;

const name = (row: s.Row) => (row.number ? `record ${row.number}` : "the reading kept on this device");

function Strike({ row }: { row: s.Row }) {
  const dialog = useRef<HTMLDialogElement>(null), why = useRef<HTMLInputElement>(null);
  const empty = signal("");
  useEffect(() => { dialog.current?.showModal(); }, []);
  const close = () => { striking.value = null; };
  const strike = async () => {
    const reason = why.current?.value.trim() ?? "";
    if (!reason || !s.who.value.trim()) { empty.value = "A strike says why, and who strikes."; return; }
    try {
      await s.keepStrike(row, reason, s.who.value.trim());
    } catch (error) { empty.value = `Not kept: ${(error as Error).message}`; return; }
    close();
    void send();
  };
  return (
    <dialog ref={dialog} onClose={close} aria-labelledby="strike-title">
      <h2 id="strike-title">Strike {name(row)}?</h2>
      <p>It stays in the log, crossed out, and is judged no more.</p>
      <label for="strike-why">Why</label>
      <input id="strike-why" ref={why} type="text" autocomplete="off" />
      <label for="strike-who">Who strikes</label>
      <input id="strike-who" type="text" autocomplete="off" value={s.who.value} onInput={(e) => void s.setWho(e.currentTarget.value)} />
      <p class="fault" role="alert">{empty}</p>
      <div class="pair"><button type="button" onClick={() => dialog.current?.close()}>Leave it</button>
        <button type="button" class="chief" id="strike-do" onClick={() => void strike()}>Strike it</button></div>
    </dialog>
  );
}

function Reading({ row }: { row: s.Row }) {
  const made = s.page.value?.readings.find((r) => r.id === row.id), unit = s.day.value?.move_unit;
  const call: Call | undefined = row.log?.call ?? s.said.value.get(row.id)?.call;
  const clock = /T([\d:]{5,8})/.exec(row.words.time ?? "")?.[1];
  return (
    <li class={row.struck ? "struck" : ""} data-id={row.id}>
      <div class="line">
        <b>{row.number ?? "kept here"}</b>
        <span>{row.words.step === "0" ? "zero" : `step ${row.words.step}`}, {row.words.phase}</span>
        <span>{clock} {row.words.who}</span>
        <span class="made">{made?.force ?? "no force"}, {made?.opening ? `${made.opening} ${unit}` : "no opening"}</span>
        {call && <span class="call"><Shape call={call} />{call}</span>}
        {row.words.remark && <span class="remark">{row.words.remark}</span>}
        {row.struck && <span class="why">struck by {row.struck.who}: {row.struck.why}{row.struck.sent ? "" : " (not sent yet)"}</span>}
      </div>
      {!row.struck && s.role.value === "writer" &&
        <button type="button" class="strike" onClick={() => { striking.value = row; }} aria-label={`Strike ${name(row)}`}>Strike</button>}
    </li>
  );
}

export function Log() {
  const rows = [...s.rows.value].reverse();
  if (!rows.length) return null;
  const shown = all.value ? rows : rows.slice(0, SHOWN);
  return (
    <section class="card" aria-labelledby="log-title">
      <h2 id="log-title">Readings</h2>
      <ol class="readings">{shown.map((row) => <Reading key={row.id} row={row} />)}</ol>
      {rows.length > SHOWN && <button type="button" onClick={() => { all.value = !all.value; }}>{all.value ? `The last ${SHOWN}` : `All ${rows.length}`}</button>}
      {striking.value && <Strike row={striking.value} />}
    </section>
  );
}
