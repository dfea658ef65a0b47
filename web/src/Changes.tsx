// Two texts, line by line: only what differs, with its surroundings.
import { changesOnly, diffLines } from "./diff";

export function Changes({ before, after, names }: { before: string; after: string; names: [string, string] }) {
  const lines = changesOnly(diffLines(before, after));
  if (!lines.length) return <p class="fine">The two texts are the same.</p>;
  return (
    <div class="changes" tabIndex={0} role="region" aria-label={`Differences of the texts: − ${names[0]}, + ${names[1]}`}>
      <p class="fine"><span class="gone">− {names[0]}</span> <span class="new">+ {names[1]}</span></p>
      <pre>{lines.map((line, i) => line === null ? <span key={i} class="left-out">⋯{"\n"}</span>
        : <span key={i} class={line.kind}>{line.kind === "gone" ? "− " : line.kind === "new" ? "+ " : "  "}{line.text}{"\n"}</span>)}</pre>
    </div>
  );
}
