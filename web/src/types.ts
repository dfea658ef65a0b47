// What the engine, the server and the page say to one another.

export interface Fault {
  line: number;
  column: number;
  to_line: number;
  to_column: number;
  key: string | null;
  expected: string | null;
  suggestion: string | null;
  text: string;
}

export interface Moment { time: number; label: string }
export interface Time { day: number; label: string; moment: string | null }
export interface Joint { name: string; x_m: number }

export interface Line {
  name: string;
  rules: { name: string; counts: boolean }[];
  rule: number;
  joint: number; // that governs; -1: none
  joints: Joint[];
  times: Time[];
  moments: Moment[];
}

export interface Value { path: string; shown: string; origin: "given" | "default" | "derived" }

export interface Facts {
  name: string;
  units: "US" | "SI";
  need_N: number | null;
  most_N: number | null;
  least_N: number | null;
  thrust_N: number;
  reachable: boolean;
  window: boolean;
  met: boolean;
  governing_line: number;
  limiting_line: number;
  need_name: string | null;
  need_where: string | null;
  most_name: string | null;
  most_where: string | null;
  slider: { from_N: number; to_N: number; step_N: number };
  lines: Line[];
  pictures: { id: string; title: string }[];
  values?: Value[];
}

export interface Worst {
  line: number;
  rule: number;
  rule_name: string;
  joint: number;
  name: string;
  time: number;
  day: number;
  when: string;
  top: boolean;
  side: string;
  permanent_Pa: number;
  live_Pa: number;
  gradient_Pa: number;
  wheel_Pa: number;
  demand_Pa: number;
  limit_Pa: number;
  margin_Pa: number;
}

export interface Look {
  thrust_N: number;
  predicted: boolean;
  met: boolean;
  reachable: boolean;
  open_count: number;
  worst: Worst | null;
  average_Pa: number;
  gap_movement_m: number;
  anchor_force_N: number;
  sentence: string;
}

export interface Check {
  name: string;
  part: string;
  state: "fail" | "unproven" | "told" | "pass";
  ratio_1: number | null;
  demand: number | null;
  capacity: number | null;
  unit: string;
  line: string;
  where: string;
  when: string;
  clause: string;
  why: string | null;
  title: string;
  line_index?: number | null;
  station_x_m?: number | null;
  x_m?: number | null;
}

export interface CheckList {
  verdict: string;
  thrust_whole_N: number;
  count: { pass: number; fail: number; unproven: number; told: number };
  checks: Check[];
  not_checked?: string[];
}

/** Which picture, of what, how wide. */
export interface View { id: string; kind: number; line: number; time: number; joint: number; width: number }

export type Ask =
  | { what: "open"; tree: Uint8Array; units: number }
  | { what: "look"; thrust_N: number; full: boolean; views: View[] }
  | { what: "json"; thrust_N: number }
  | { what: "table"; thrust_N: number; view: View };

export interface Seen { look: Look; pictures: Record<string, string> }

export interface Told {
  status: number;
  broken?: boolean; // the engine itself, not what was asked
  facts?: Facts;
  faults?: Fault[];
  seen?: Seen;
  text?: string;
}

export interface Revision { id: number; when: string; note: string; mark?: string; text?: string }
