// What is asked of the server. A token comes once in the address behind #token=, and is kept on the device.
import * as keep from "./keep";
import type { SiteAnswer, Verdict, Waiting } from "./types";

export class Refused extends Error {
  constructor(readonly status: number, text: string, readonly after_s: number) { super(text); }
}

let token = "";
export async function startToken() {
  const behind = /^#token=(.*)$/.exec(location.hash)?.[1];
  if (behind !== undefined) history.replaceState(null, "", location.pathname + location.search); // whatever it is
  const given = behind && /^[\w.~+/=-]+$/.test(behind) ? behind : undefined;
  if (given) await keep.setWord("token", given);
  token = given ?? (await keep.word("token")) ?? "";
}

export const unitQuery = new URLSearchParams(location.search).get("unit") ?? "";
const address = (path: string, query: Record<string, string> = {}) => {
  const words = new URLSearchParams(query);
  if (unitQuery) words.set("unit", unitQuery);
  return `api/site${path}${words.size ? `?${words}` : ""}`;
};

async function refused(response: Response): Promise<Refused> {
  let text = `the server answered ${response.status}`;
  try {
    const error = (await response.json()).errors?.[0];
    if (error?.text) text = error.key ? `${error.key}: ${error.text}` : error.text;
  } catch { /* not JSON: the number says it */ }
  return new Refused(response.status, text, Number(response.headers.get("Retry-After")) || 0);
}

async function call(path: string, init: RequestInit, seconds: number): Promise<Response> {
  const headers = new Headers(init.headers);
  if (token) headers.set("Authorization", `Bearer ${token}`);
  const response = await fetch(path, { ...init, headers, cache: "no-store", signal: AbortSignal.timeout(seconds * 1000) });
  if (!response.ok) throw await refused(response);
  return response;
}

/** The log after a record; with `wait` the answer comes when there is more. And how far the clocks are apart. */
export async function look(after: number, wait: boolean): Promise<{ answer: SiteAnswer; ahead_s: number }> {
  const query: Record<string, string> = { after: String(after) };
  if (wait) query.wait = "20";
  const response = await call(address("", query), {}, 40);
  const answer = await response.json() as SiteAnswer;
  const there = Date.parse(response.headers.get("Date") ?? "");
  return { answer, ahead_s: Number.isFinite(there) ? Math.round((Date.now() - there) / 1000) : 0 };
}

const post = async <T>(path: string, body: unknown) =>
  (await (await call(address(path), { method: "POST", body: JSON.stringify(body), headers: { "Content-Type": "application/json" } }, 30)).json()) as T;

export const sendReading = (item: Waiting) =>
  post<{ number: number; verdict: Verdict }>("/readings", { id: item.id, job: item.job, ...item.words });
export const sendStrike = (item: Waiting, record: number) =>
  post<{ number: number }>("/strikes", { job: item.job, record: String(record), why: item.words.why ?? "", who: item.words.who ?? "" });
export const openLog = (points: string) => post<SiteAnswer>("/open", points ? { points } : {});
export const exported = async () => (await call(address("/export"), {}, 60)).blob();
