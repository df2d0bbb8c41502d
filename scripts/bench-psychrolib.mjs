// Nanoseconds per wet bulb from humidity ratio by the npm package psychrolib, to hold beside
// WetBulbBenchmark. Run where that package is installed:
//   cd "$(mktemp -d)" && npm install psychrolib@1.1.1 && node .../scripts/bench-psychrolib.mjs
import { createRequire } from "node:module";
const psychrolib = createRequire(process.cwd() + "/")("psychrolib");
psychrolib.SetUnitSystem(psychrolib.SI);
let seed = 1;
const random = () => (seed = (seed * 48271) % 2147483647) / 2147483647;
const states = Array.from({ length: 1000 }, () => {
  const t = 5 + 40 * random(), p = 80000 + 22000 * random();
  return [t, psychrolib.GetHumRatioFromRelHum(t, 0.1 + 0.85 * random(), p), p];
});
let sum = 0;
const round = () => { for (const [t, w, p] of states) sum += psychrolib.GetTWetBulbFromHumRatio(t, w, p); };
for (let i = 0; i < 200; i++) round();
const times = [];
for (let i = 0; i < 5; i++) {
  const start = process.hrtime.bigint();
  for (let k = 0; k < 200; k++) round();
  times.push(Number(process.hrtime.bigint() - start) / 200 / 1000);
}
console.log(`psychrolib ${times.map((t) => t.toFixed(0)).join(", ")} ns per wet bulb (node ${process.version}, check ${sum.toFixed(3)})`);
