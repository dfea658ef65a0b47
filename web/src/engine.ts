// The page's side of an engine in its worker: at most one question under way, the latest of a kind wins.
import type { Ask, Told } from "./types";

interface Job { slot: string; ask: Ask; done(told: Told): void }

let compiled: Promise<WebAssembly.Module> | null = null;
const module = () => (compiled ??= WebAssembly.compileStreaming(fetch("clench.wasm")).catch((error) => {
  compiled = null; // the next question tries again
  throw new Error(`it was not loaded, ${error instanceof Error ? error.message : String(error)}`);
}));

const broken = (words: string): Told => ({
  status: 3,
  broken: true,
  faults: [{ line: 0, column: 0, to_line: 0, to_column: 0, key: null, expected: null, suggestion: null,
             text: `the engine stopped: ${words}` }],
});

export class Engine {
  #worker: Promise<Worker>;
  #busy: Job | null = null;
  #waiting: Job[] = [];
  #good: Ask | null = null; // what to open again after an end

  constructor() { this.#worker = this.#start(); }

  #start(): Promise<Worker> {
    const started = this.#load();
    started.catch(() => {}); // told to whoever asks
    return started;
  }

  async #load(): Promise<Worker> {
    const worker = new Worker("worker.js", { type: "module" });
    worker.onmessage = (event) => this.#told(event.data);
    try {
      worker.postMessage({ module: await module() });
    } catch (error) {
      worker.terminate();
      throw error;
    }
    return worker;
  }

  /** Asks; a question of the same slot that still waits is dropped unanswered. */
  ask(slot: string, ask: Ask, done: (told: Told) => void) {
    if (ask.what === "open") this.#waiting = []; // what was asked about the bridge before
    else this.#waiting = this.#waiting.filter((job) => job.slot !== slot);
    this.#waiting.push({ slot, ask, done });
    this.#next();
  }

  #next() {
    if (this.#busy) return;
    const job = this.#waiting.shift();
    if (!job) return;
    this.#busy = job;
    this.#worker.then((worker) => worker.postMessage({ id: 0, ask: job.ask }),
      (error) => this.#told({ broken: error instanceof Error ? error.message : String(error) }));
  }

  #told(data: { told?: Told; broken?: string }) {
    const job = this.#busy;
    this.#busy = null;
    if (job) {
      if (job.ask.what === "open" && data.told?.facts) this.#good = job.ask;
      if (data.broken !== undefined) this.#restart();
      job.done(data.told ?? broken(data.broken ?? ""));
    }
    this.#next();
  }

  // A trapped instance is not asked again: a fresh one opens the last good bridge.
  #restart() {
    this.end();
    this.#worker = this.#start();
    if (this.#good) this.#waiting.unshift({ slot: "open", ask: this.#good, done: () => {} });
  }

  end() { this.#worker.then((worker) => worker.terminate(), () => {}); }
}
