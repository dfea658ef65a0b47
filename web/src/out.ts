// What leaves the page: pictures, data, the package, a link.
import { packagePdf } from "./api";
import { picture, table } from "./desk";
import { currentLink } from "./link";
import * as s from "./state";

function give(blob: Blob, name: string) {
  const a = document.createElement("a");
  a.href = URL.createObjectURL(blob);
  a.download = name;
  a.click();
  setTimeout(() => URL.revokeObjectURL(a.href), 10000);
}

const stem = () => s.fileName.peek().replace(/\.[^.]*$/, "") || "bridge";
const darkNow = () => {
  const set = document.documentElement.dataset.theme;
  return set ? set === "dark" : matchMedia("(prefers-color-scheme: dark)").matches;
};

/** A picture that stands alone: size, colours and letters inside it. */
async function whole(id: string): Promise<{ svg: string; width: number; height: number }> {
  const style = await (await fetch("picture.css")).text();
  const svg = new DOMParser().parseFromString(picture(id).peek(), "text/html").querySelector("svg")!;
  const [, , width = 0, height = 0] = (svg.getAttribute("viewBox") ?? "").split(/[ ,]+/).map(Number);
  svg.setAttribute("xmlns", "http://www.w3.org/2000/svg");
  svg.setAttribute("width", String(width));
  svg.setAttribute("height", String(height));
  svg.setAttribute("data-theme", darkNow() ? "dark" : "light");
  const text = new XMLSerializer().serializeToString(svg), head = text.indexOf(">") + 1;
  const sheet = `<style>${style.replace(/</g, "&lt;")}\nsvg{background:var(--paper)}</style>`;
  return { svg: text.slice(0, head) + sheet + text.slice(head), width, height };
}

async function svgOut(id: string) {
  give(new Blob([(await whole(id)).svg], { type: "image/svg+xml" }), `${stem()}-${id}.svg`);
}

async function pngOut(id: string) {
  const { svg, width, height } = await whole(id);
  const image = new Image();
  image.src = URL.createObjectURL(new Blob([svg], { type: "image/svg+xml" }));
  await image.decode();
  const canvas = document.createElement("canvas");
  const fine = 2; // dots a picture unit, for print
  canvas.width = width * fine;
  canvas.height = height * fine;
  canvas.getContext("2d")!.drawImage(image, 0, 0, canvas.width, canvas.height);
  URL.revokeObjectURL(image.src);
  const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, "image/png"));
  if (!blob) throw new Error("the browser made no picture");
  give(blob, `${stem()}-${id}.png`);
}

const csvOut = async (id: string) =>
  give(new Blob([await table(id)], { type: "text/csv" }), `${stem()}-${id}.csv`);

async function said(what: string, work: () => Promise<void>) {
  try {
    await work();
    s.told(`${what}: given to the browser.`);
  } catch (error) {
    s.told(`${what}: not made, ${error instanceof Error ? error.message : String(error)}`);
  }
}

export const giveSvg = (id: string) => said("SVG", () => svgOut(id));
export const givePng = (id: string) => said("PNG", () => pngOut(id));
export const giveCsv = (id: string) => said("CSV", () => csvOut(id));

/** The calculation package of the last good text, at the thrust shown. */
export const givePackage = () => said(s.stale.peek() ? "Calculation package of the last text without errors" : "Calculation package", async () => {
  s.told(s.stale.peek() ? "The calculation package is being written, of the last text without errors …"
    : "The calculation package is being written …");
  const thrust_N = s.moved.peek() ? s.thrust_N.peek() : null;
  give(await packagePdf(s.goodText.peek(), thrust_N), `${stem()}.pdf`);
});

export async function giveLink() {
  const link = new URL(currentLink(), location.href).href;
  history.replaceState(null, "", link);
  try {
    await navigator.clipboard.writeText(link);
    s.told("Link to this view: copied.");
  } catch {
    s.told("Link to this view: it stands in the address line.");
  }
}
