// read.mjs NAME MODEL.ifc PANELS.json: the volume of each panel's mesh, as an importer makes it, beside the schedule's.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";

const { IfcAPI, IFCSLAB } = createRequire(join(process.env.CLENCH_MODEL_TESTS, "package.json"))("web-ifc");
const [, , name, modelFile, panelsFile] = process.argv;
const panels = JSON.parse(readFileSync(panelsFile, "utf8"));
const kinds = new Map(panels.kinds.map((kind) => [kind.kind, kind]));

const api = new IfcAPI();
await api.Init();
const model = api.OpenModel(new Uint8Array(readFileSync(modelFile)));
const marks = new Map();
const slabs = api.GetLineIDsWithType(model, IFCSLAB);
for (let i = 0; i < slabs.size(); i++) marks.set(slabs.get(i), api.GetLine(model, slabs.get(i)).Name.value);

/** Of a closed mesh: the tetrahedra over its triangles, from one of its corners. */
function volumeOf(placed) {
  const m = placed.flatTransformation, shape = api.GetGeometry(model, placed.geometryExpressID);
  const corner = api.GetVertexArray(shape.GetVertexData(), shape.GetVertexDataSize());
  const index = api.GetIndexArray(shape.GetIndexData(), shape.GetIndexDataSize());
  const at = (k) => [0, 1, 2].map((r) => m[r] * corner[6 * k] + m[4 + r] * corner[6 * k + 1] + m[8 + r] * corner[6 * k + 2] + m[12 + r]);
  const first = index.length ? at(index[0]) : [0, 0, 0];
  let sum = 0;
  for (let k = 0; k < index.length; k += 3) {
    const [a, b, c] = [0, 1, 2].map((i) => at(index[k + i]).map((value, axis) => value - first[axis]));
    sum += (a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0]) + a[2] * (b[0] * c[1] - b[1] * c[0])) / 6;
  }
  shape.delete();
  return sum;
}

const volume = new Map();
api.StreamAllMeshes(model, (mesh) => {
  if (!marks.has(mesh.expressID)) return;
  let sum = 0;
  for (let g = 0; g < mesh.geometries.size(); g++) sum += volumeOf(mesh.geometries.get(g));
  volume.set(marks.get(mesh.expressID), Math.abs(sum));
});

const faults = [];
if (api.GetModelSchema(model) !== "IFC4X3_ADD2") faults.push(`schema ${api.GetModelSchema(model)}`);
// the other slabs are closures, one a run
const others = volume.size - panels.panels.filter((panel) => volume.has(panel.mark)).length;
if (others !== panels.runs.length) faults.push(`${others} slabs that are no panels, in ${panels.runs.length} runs`);
for (const panel of panels.panels) {
  const off = (volume.get(panel.mark) ?? 0) / kinds.get(panel.kind).concrete_m3 - 1;
  if (!(Math.abs(off) < 1e-5)) faults.push(`${panel.mark}: off by ${off}`); // the importer's numbers are single precision
}
for (const fault of faults) console.log(`${name}: ${fault}`);
process.exit(faults.length ? 1 : 0);
