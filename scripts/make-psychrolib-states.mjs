// Writes src/test/resources/reference/psychrolib_states.csv: 500 random moist-air states computed
// by the npm package psychrolib (MIT). Run where that package is installed:
//   cd "$(mktemp -d)" && npm install psychrolib@1.1.1 && node .../scripts/make-psychrolib-states.mjs > states.csv
import { createRequire } from "node:module";
const psychrolib = createRequire(process.cwd() + "/")("psychrolib");
psychrolib.SetUnitSystem(psychrolib.SI);
let seed = 20260721;
function random() {
  // Park and Miller's minimal standard generator: the table can be made again anywhere.
  seed = (seed * 48271) % 2147483647;
  return seed / 2147483647;
}
console.log("# 500 random states of moist air computed by the npm package psychrolib 1.1.1 (ASHRAE Fundamentals 2017 ch. 1).");
console.log("# Made by scripts/make-psychrolib-states.mjs. Its wet and dew points are bisected or iterated to 0.001 K.");
console.log("dry_bulb_c,relative_humidity,pressure_pa,humidity_ratio,wet_bulb_c,dew_point_c,enthalpy_j_kg,volume_m3_kg,humidity_ratio_from_wet_bulb");
for (let i = 0; i < 500; i++) {
  const t = -30 + 80 * random();
  const rh = 0.03 + 0.97 * random();
  const p = 70000 + 35000 * random();
  const w = psychrolib.GetHumRatioFromRelHum(t, rh, p);
  const wb = psychrolib.GetTWetBulbFromHumRatio(t, w, p);
  console.log([t, rh, p, w, wb, psychrolib.GetTDewPointFromHumRatio(t, w, p),
    psychrolib.GetMoistAirEnthalpy(t, w), psychrolib.GetMoistAirVolume(t, w, p),
    psychrolib.GetHumRatioFromTWetBulb(t, wb, p)].join(","));
}
