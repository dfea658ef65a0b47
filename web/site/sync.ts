// To the server and back: records come in by waiting, what is kept here goes out in its order, each once.
import { signal } from "@preact/signals";
import * as keep from "./keep";
import { look, Refused, sendReading, sendStrike } from "./net";
import * as s from "./state";
import type { LogRecord, Waiting } from "./types";

export type Net = { state: "asking" } | { state: "up" } | { state: "down"; since: Date; why: string };
export const net = signal<Net>({ state: "asking" });
export const clock_s = signal(0); // this device's clock ahead of the server's
export const shorter = signal(""); // the log has less than this device saw

const up = () => { net.value = { state: "up" }; };
function down(why: string) {
  const since = net.value.state === "down" ? net.value.since : new Date();
  net.value = { state: "down", since, why };
}

const why = (error: unknown) => {
  if (error instanceof Refused) {
    if (error.status === 401) return "this device is not known to the server: open the address with its token again";
    return error.message;
  }
  return "no connection to the server";
};

const rest = (seconds: number) => new Promise<void>((done) => {
  const end = () => { clearTimeout(timer); removeEventListener("online", end); done(); };
  const timer = setTimeout(end, seconds * 1000);
  addEventListener("online", end);
});

// ---- in ----

async function takeIn(wait: boolean) {
  const known = s.job.value;
  let { answer, ahead_s } = await look(known?.next ?? 0, wait);
  clock_s.value = ahead_s;
  s.role.value = answer.role;
  s.file.value = answer.file;
  if (answer.log === "none") { s.log.value = "none"; return; }
  let plan = known?.job === answer.job ? known.plan : answer.day;
  if (plan === null || (known && known.job !== answer.job)) { // another log than this device knows: all of it
    ({ answer } = await look(0, false));
    plan = answer.day;
    shorter.value = "";
  } else if (known && answer.next < known.next) {
    shorter.value = `The log on the server ends at record ${answer.next}; this device saw ${known.next}. What this device saw stays here: tell who keeps the server.`;
    return;
  }
  if (!plan) throw new Error("the server gave no plan");
  shorter.value = "";
  s.log.value = "open";
  const last = answer.records.at(-1)?.number;
  if (last !== undefined || s.job.value?.job !== answer.job || s.job.value.role !== answer.role)
    await s.take(plan, answer.job, answer, last ?? s.job.value?.next ?? 0);
  if (last !== undefined && last < answer.next) await takeIn(false);
}

/** Runs as long as the page does. */
export async function listen() {
  for (let failures = 0; ;) {
    try {
      await takeIn(failures === 0 && net.value.state === "up");
      failures = 0;
      up();
      void send();
      if (s.log.value !== "open" || shorter.value) await rest(3);
    } catch (error) {
      down(why(error));
      failures++;
      const after = error instanceof Refused ? error.after_s : 0;
      await rest(Math.max(after, Math.min(1 + failures, 8)));
    }
  }
}

// ---- out ----

function recordOf(item: Waiting, number: number, of: number | undefined): LogRecord {
  if (item.kind === "reading") return { number, id: item.id, kind: "reading", at: item.at, body: item.body };
  return { number, id: `strike of ${of}`, kind: "strike", at: item.at, body: JSON.stringify({ strikes: of, ...item.words }) };
}

async function sendOne(item: Waiting): Promise<void> {
  if (item.kind === "reading") {
    const taken = await sendReading(item);
    const here = s.said.value.get(item.id) ?? { job: item.job, id: item.id, call: taken.verdict.call, reason: taken.verdict.reason };
    await keep.sent(item, recordOf(item, taken.number, undefined),
      { ...here, number: taken.number, log: { call: taken.verdict.call, reason: taken.verdict.reason } });
    return;
  }
  const of = s.records.value.find((r) => r.id === item.of)?.number;
  if (of === undefined) throw new Refused(409, "the reading that it strikes is not in the log", 0);
  const taken = await sendStrike(item, of);
  await keep.sent(item, recordOf(item, taken.number, of), null);
}

/** Answers that no repetition will change: a person must look, the others go on. A server with another log has
 * refused nothing: all stays as it is. */
const final = (error: unknown) => error instanceof Refused && [400, 409, 413].includes(error.status);

async function sendAll() {
  for (let item = s.open.value[0]; item; item = s.open.value[0]) {
    try {
      await sendOne(item);
    } catch (error) {
      if (!final(error)) throw error;
      if ((error as Refused).status === 409 && (await look(s.job.value?.next ?? 0, false)).answer.job !== item.job) throw error;
      await keep.change({ ...item, state: "refused", answer: (error as Error).message });
    }
    await s.changed();
    up();
  }
}

let sending = false;
async function sendAlone() {
  sending = true;
  try {
    while (s.open.value.length) await sendAll();
  } catch (error) {
    down(why(error));
  } finally {
    sending = false;
  }
}

/** One sender a device: of two pages the one that holds the lock. */
export async function send() {
  if (sending || net.value.state !== "up" || !s.open.value.length || s.role.value !== "writer") return;
  if (!navigator.locks) return sendAlone();
  await navigator.locks.request("clench-site-send", { ifAvailable: true }, async (lock) => {
    if (lock) await sendAlone();
  });
}
