// Lines that two texts share, and those they do not: the longest common subsequence.

export interface DiffLine { kind: "same" | "gone" | "new"; text: string; before: number; after: number }

export function diffLines(before: string, after: string): DiffLine[] {
  const a = before.split("\n"), b = after.split("\n");
  let head = 0;
  while (head < a.length && head < b.length && a[head] === b[head]) head++;
  let tail = 0;
  while (tail < a.length - head && tail < b.length - head && a[a.length - 1 - tail] === b[b.length - 1 - tail]) tail++;
  const n = a.length - head - tail, m = b.length - head - tail;
  const wide = m + 1, long = new Uint16Array((n + 1) * wide);
  for (let i = n - 1; i >= 0; i--)
    for (let j = m - 1; j >= 0; j--)
      long[i * wide + j] = a[head + i] === b[head + j] ? long[(i + 1) * wide + j + 1]! + 1
        : Math.max(long[(i + 1) * wide + j]!, long[i * wide + j + 1]!);
  const out: DiffLine[] = [];
  let i = 0, j = 0;
  const push = (kind: DiffLine["kind"], text: string, x: number, y: number) =>
    out.push({ kind, text, before: x + 1, after: y + 1 });
  for (let k = 0; k < head; k++) push("same", a[k]!, k, k);
  while (i < n || j < m) {
    const x = head + i, y = head + j;
    if (i < n && j < m && a[x] === b[y]) { push("same", a[x]!, x, y); i++; j++; }
    else if (i < n && (j >= m || long[(i + 1) * wide + j]! >= long[i * wide + j + 1]!)) { push("gone", a[x]!, x, y); i++; }
    else { push("new", b[y]!, x, y); j++; }
  }
  for (let k = 0; k < tail; k++) push("same", a[a.length - tail + k]!, a.length - tail + k, b.length - tail + k);
  return out;
}

/** Only what changed, with two lines around it; null stands for what is left out. */
export function changesOnly(lines: DiffLine[], around = 2): (DiffLine | null)[] {
  const keep = lines.map((_, k) => lines.slice(Math.max(0, k - around), k + around + 1).some((l) => l.kind !== "same"));
  const out: (DiffLine | null)[] = [];
  lines.forEach((line, k) => {
    if (keep[k]) out.push(line);
    else if (out.length && out[out.length - 1] !== null) out.push(null);
  });
  return out;
}
