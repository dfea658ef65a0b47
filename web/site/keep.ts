// The device's store: IndexedDB by hand. A write is done when the browser says that the disk has it.
import type { Job, LogRecord, Said, Waiting } from "./types";

const NAME = "clench-site";
type Room = "job" | "record" | "out" | "said" | "word";

function opened(): Promise<IDBDatabase> {
  return new Promise((done, fail) => {
    const ask = indexedDB.open(NAME, 1);
    ask.onupgradeneeded = () => {
      const db = ask.result;
      db.createObjectStore("job", { keyPath: "key" });
      db.createObjectStore("record", { keyPath: ["job", "number"] });
      db.createObjectStore("out", { keyPath: "order", autoIncrement: true });
      db.createObjectStore("said", { keyPath: ["job", "id"] });
      db.createObjectStore("word");
    };
    ask.onsuccess = () => {
      ask.result.onversionchange = () => ask.result.close();
      done(ask.result);
    };
    ask.onerror = () => fail(ask.error);
    ask.onblocked = () => fail(new Error("another page of this address holds the store"));
  });
}

let db: Promise<IDBDatabase> | null = null;
function base(): Promise<IDBDatabase> {
  db ??= opened();
  db.catch(() => { db = null; });
  return db;
}

/** One transaction: all of it, or none; resolved once it is on the disk. */
async function act(rooms: Room[], work: (room: (name: Room) => IDBObjectStore) => void): Promise<void> {
  const deal = (await base()).transaction(rooms, "readwrite", { durability: "strict" });
  return new Promise((done, fail) => {
    deal.oncomplete = () => done();
    deal.onabort = deal.onerror = () => fail(deal.error ?? new Error("the device's store refused"));
    work((name) => deal.objectStore(name));
  });
}

async function ask<T>(room: Room, question: (store: IDBObjectStore) => IDBRequest): Promise<T> {
  const deal = (await base()).transaction(room, "readonly");
  return new Promise((done, fail) => {
    const request = question(deal.objectStore(room));
    request.onsuccess = () => done(request.result as T);
    request.onerror = () => fail(request.error);
  });
}

export const job = (key: string) => ask<Job | undefined>("job", (s) => s.get(key));
const ofJob = (name: string) => IDBKeyRange.bound([name], [name, []]);
export const records = (name: string) =>
  ask<(LogRecord & { job: string })[]>("record", (s) => s.getAll(ofJob(name)));
export const said = (name: string) => ask<Said[]>("said", (s) => s.getAll(ofJob(name)));
/** Of every log, in order. */
export const waiting = () => ask<Waiting[]>("out", (s) => s.getAll());
export const word = (key: string) => ask<string | undefined>("word", (s) => s.get(key));
export const setWord = (key: string, value: string) => act(["word"], (r) => r("word").put(value, key));

export const setJob = (value: Job) => act(["job"], (r) => r("job").put(value));

/** What the server told: the job and its new records together, so that `next` never runs ahead of them. */
export const take = (value: Job, list: LogRecord[]) => act(["job", "record"], (r) => {
  for (const record of list) r("record").put({ ...record, job: value.job });
  r("job").put(value);
});

export const add = (item: Waiting) => act(["out"], (r) => r("out").add(item));
export const change = (item: Waiting) => act(["out"], (r) => r("out").put(item));
export const say = (value: Said) => act(["said"], (r) => r("said").put(value));

/** Taken by the log: out of what waits and into its records in one step. The server tells the record again. */
export const sent = (item: Waiting, record: LogRecord, value: Said | null) => act(["out", "record", "said"], (r) => {
  r("out").delete(item.order!);
  r("record").put({ ...record, job: item.job });
  if (value) r("said").put(value);
});
export const drop = (order: number) => act(["out"], (r) => r("out").delete(order));
