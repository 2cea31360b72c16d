// Writes colour_rows.csv: random pairs of CIE L*a*b* colours, their CIEDE2000 difference, and the
// first of each on a screen (sRGB, before clipping, in 1/255), as the npm package culori has them.
//   npm install culori@4.0.2 && node colour_rows.mjs > colour_rows.csv
import { readFileSync } from "node:fs";
import { differenceCiede2000, rgb } from "culori";

const version = JSON.parse(readFileSync("node_modules/culori/package.json")).version;
let state = 20260921; // a small congruential generator, so that the rows can be made again
const draw = (low, high) => {
  state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
  return low + ((high - low) * state) / 4294967296;
};
const fixed = (x) => x.toFixed(6);
const difference = differenceCiede2000();
console.log(`# Written by colour_rows.mjs with culori ${version}.`);
console.log("L1,a1,b1,L2,a2,b2,difference,red1,green1,blue1");
for (let row = 0; row < 300; ++row) {
  const wide = row % 2 ? 60 : 4; // far apart, and near each other
  const one = { mode: "lab65", l: draw(0, 100), a: draw(-60, 60), b: draw(-60, 60) };
  const other = { mode: "lab65", l: one.l + draw(-wide, wide) / 2, a: one.a + draw(-wide, wide), b: one.b + draw(-wide, wide) };
  other.l = Math.min(100, Math.max(0, other.l));
  for (const colour of [one, other]) for (const key of ["l", "a", "b"]) colour[key] = Number(fixed(colour[key]));
  const { r, g, b } = rgb(one);
  const cells = [one.l, one.a, one.b, other.l, other.a, other.b, difference(one, other), 255 * r, 255 * g, 255 * b];
  console.log(cells.map(fixed).join(","));
}
