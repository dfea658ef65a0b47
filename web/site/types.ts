// What the log's engine, the server, the device's store and the page say to one another.

export type Call = "go on" | "read again" | "hold" | "stop";
export type Words = Record<string, string>; // "time", "step", "phase", "pressure 1", "move 3", ...

/** A record of the log; `body` is its text. */
export interface LogRecord { number: number; id: string; kind: string; at: string; hash?: string; body: string }

export interface Step {
  stage: number;
  stage_end: boolean;
  share: number;
  force: string | null;
  pressure: string;
  low: string | null;
  expected: string | null;
  high: string | null;
  hold_min: number;
}

export interface Day {
  name: string;
  file: string;
  unit: string;
  pressure_unit: string;
  move_unit: string;
  temperature_unit: string;
  force_unit: string;
  sets: string[];
  dials: string[];
  phases: string[];
  steps: Step[];
  cautions: string[];
}

export interface Verdict {
  id?: string;
  act?: string;
  call: Call;
  sure: number | null;
  reason: string;
  findings: { kind: string; call: Call; words: string | null }[];
  causes: { cause: string; measure: string | null }[];
}

export interface Band { low: string | null; expected: string | null; high: string | null }
export interface Table { caption: string; head: string[]; rows: string[][] }
export interface PictureOf { id: string; title: string; description: string; svg: string; table: Table }

export interface Page {
  verdict: Verdict | null;
  dials: Band[][];
  readings: { id: string; force: string | null; opening: string | null }[];
  pictures: PictureOf[];
}

export interface SiteAnswer {
  file: string;
  log: "none" | "open";
  role: "reader" | "writer";
  job: string;  // hash of the plan's record
  next: number; // of the last record
  day: string | null; // body of the plan's record, where asked from the start
  records: LogRecord[];
}

/** A log as this device knows it. */
export interface Job {
  job: string;
  key: string; // of the address: its unit
  file: string;
  plan: string; // body of the plan's record
  role: "reader" | "writer";
  next: number; // last number that was seen
}

/** What waits to be sent, in its order; refused: the log did not take it, a person must look. */
export interface Waiting {
  order?: number;
  job: string;
  id: string;
  kind: "reading" | "strike";
  at: string;
  words: Words; // of a reading; of a strike: why, who
  of?: string;  // id of the reading that is struck
  body: string; // of a reading, as the log will have it
  state: "waiting" | "refused";
  answer?: string;
}

/** What this device said of a reading when it was kept; what the log said when it took it. */
export interface Said { job: string; id: string; call: Call; reason: string; number?: number; log?: { call: Call; reason: string } }
