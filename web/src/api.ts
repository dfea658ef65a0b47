// Everything that is asked of the server.
import type { CheckList, Fault, Revision } from "./types";

export interface FileAnswer { name: string; text: string; mark: string }
export class Refused extends Error {
  constructor(readonly status: number, readonly faults: Fault[]) {
    super(faults[0]?.text ?? `the server answered ${status}`);
  }
}

async function refused(response: Response): Promise<Refused> {
  let faults: Fault[] = [];
  try {
    const said = await response.json();
    faults = (said.errors ?? []).map((e: Fault | string) => (typeof e === "string" ? { text: e } : e));
  } catch { /* not JSON: the number says it */ }
  return new Refused(response.status, faults);
}

async function post(path: string, body: string): Promise<Response> {
  const response = await fetch(path, { method: "POST", body, headers: { "Content-Type":
    body.startsWith("{") ? "application/json" : "text/plain;charset=utf-8" } });
  if (!response.ok) throw await refused(response);
  return response;
}

/** The file; with a mark it waits for a change and gives null if none came. */
export async function readFile(mark: string | null): Promise<FileAnswer | null> {
  const response = await fetch(mark === null ? "api/file" : "api/file?wait=25",
    { headers: mark === null ? {} : { "If-None-Match": `"${mark}"` }, cache: "no-store" });
  if (response.status === 304) return null;
  if (!response.ok) throw await refused(response);
  return response.json();
}

export type Saved = { mark: string } | { conflict: { text: string; mark: string } };
export async function writeFile(text: string, mark: string): Promise<Saved> {
  const response = await fetch("api/file", { method: "PUT", body: text,
    headers: { "If-Match": `"${mark}"`, "Content-Type": "text/plain;charset=utf-8" } });
  if (response.status === 412) return { conflict: await response.json() };
  if (!response.ok) throw await refused(response);
  return response.json();
}

export async function readTree(text: string): Promise<Uint8Array> {
  return new Uint8Array(await (await post("api/tree", text)).arrayBuffer());
}

// Asked for while the rest of the page is still being set up; who takes them hears of their faults.
export const firstFile = readFile(null);
export const firstTree = firstFile.then((file) => (file?.text ? readTree(file.text) : null));
firstTree.catch(() => {});

export async function setValue(text: string, path: string, value: string): Promise<string> {
  return (await (await post("api/set", JSON.stringify({ text, path, value }))).json()).text;
}
export async function firstBridge(form: Record<string, string>): Promise<string> {
  return (await (await post("api/first", JSON.stringify(form))).json()).text;
}
export async function runChecks(text: string, thrust_N: number): Promise<CheckList> {
  return (await post(`api/checks?thrust_N=${thrust_N}`, text)).json();
}
export async function packagePdf(text: string, thrust_N: number | null): Promise<Blob> {
  return (await post(`api/package${thrust_N === null ? "" : `?thrust_N=${thrust_N}`}`, text)).blob();
}
export async function listRevisions(): Promise<Revision[]> {
  const response = await fetch("api/revisions", { cache: "no-store" });
  if (!response.ok) throw await refused(response);
  return (await response.json()).revisions;
}
export async function keepRevision(text: string, note: string): Promise<number> {
  return (await (await post("api/revisions", JSON.stringify({ text, note }))).json()).id;
}
export async function readRevision(id: number): Promise<Revision> {
  const response = await fetch(`api/revisions/${id}`);
  if (!response.ok) throw await refused(response);
  return response.json();
}
