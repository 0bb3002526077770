// What the program makes for these checks: survey sheets, and packs whose names and notes try to run, to hide, or to push the page apart: the demo library with its words replaced.
import { execFileSync } from "node:child_process";
import { cpSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";

const LONG = "x".repeat(500);
const RUN = "window.hostileRan = true";

/** What stands in a file, and what takes its place: a pack that is ready, one that is not, and a panel. */
const READY = {
  "Lantern Bakery": `</title></style><script>${RUN}</script>"'><svg onload=${RUN}>`,
  "4 Quay Street, Ferrow Bay": "[here](javascript:window.hostileRan=true) javascript:alert(1)",
  "Keys at the shop; baking from four in the morning": LONG,
  BELL: "מפתח אצל השכן \u202egnp.exe مرحبا",
  HALL: "🔔🔥👩‍🔧🏴󠁧󠁢󠁳󠁣󠁴󠁿 e\u0301\u0302\u0303\u0304\u0305\u0306",
  "Front wall": `<img src=x onerror=${RUN}>`,
  "Front sounder": "صفارة الواجهة الأمامية مع وميض",
  "Hall motion": `W${"W".repeat(119)}`,
  "Back door": "'; DROP <b onclick=alert(1)>door</b> | `code` **bold** &lt;",
  "Spur by the meter, 3 A": "😀".repeat(60),
};
const NOT_READY = {
  "Ropewalk Store": `"><script>${RUN}</script> \u{1F6A8} ${LONG}`,
  "The Ropewalk, Ferrow Bay": "רחוב החבלים 4, מפרץ \u202e4 yauQ",
  "Forklift to be moved first": "javascript:window.hostileRan=true",
  "Gable sounder": LONG,
  "Bay 1 motion": `${"א".repeat(80)} </strong><script>${RUN}</script>`,
  "Bay 1": "-".repeat(200),
};
const PANEL = {
  "12 V out to detectors": `</td></tr></table><script>${RUN}</script>`,
  "Standby battery positive, red lead": `${LONG} שלום`,
  "Siren trigger": "<iframe src=https://example.org></iframe> <style>*{display:none}</style>",
};
const NOTE = `---
about: STB
date: 2026-11-04
by: "<script>${RUN}</script>"
how: measured
---
# Loud <script>${RUN}</script>

[bad](javascript:${encodeURIComponent(RUN)}) [data](data:text/html,x) [good](https://example.org/a) ![p](https://example.org/p.png)

<style>body { display: none }</style><div onmouseover="${RUN}">

${LONG} مرحبا 🔔 ${"-".repeat(300)}

\`\`\`
${LONG}
`;

/** Makes a survey sheet for each panel of the library, and one for a panel that has no card, and says where they are. */
export function sheets(program, library, scratch) {
  const out = join(scratch, "sheets");
  const panels = readdirSync(join(library, "panels")).map((file) => file.replace(/\.yaml$/, ""));
  run(program, ["--library", library, "sheet", ...panels, "old-white-box", "-o", out]);
  return out;
}

/** Builds the hostile packs below `scratch` and says where they are. */
export function hostilePacks(program, library, scratch) {
  const own = join(scratch, "library");
  const out = join(scratch, "packs");
  cpSync(library, own, { recursive: true });
  const surveys = ["lantern-bakery", "ropewalk-store"].map((id) => join(own, "surveys", `${id}.yaml`));
  replace(surveys[0], READY);
  replace(surveys[1], NOT_READY);
  replace(join(own, "panels", "merrowby-mb6.yaml"), PANEL);
  run(program, ["--library", own, "check"]);
  // The check refuses a picture with an address; the pack must stay whole all the same.
  writeFileSync(join(own, "notes", "merrowby-mb6", "2026-11-04-loud.md"), NOTE);
  run(program, ["--library", own, "pack", ...surveys, "-o", out]);
  return out;
}

/** Runs the program; what it finds wrong ends the checks. */
function run(program, args) {
  execFileSync(program, args, { stdio: ["ignore", "ignore", "pipe"] });
}

/** Replaces quoted words of a YAML file; a word in JSON's quotes is one in YAML's. */
function replace(file, words) {
  let text = readFileSync(file, "utf8");
  for (const [old, word] of Object.entries(words)) {
    const quoted = JSON.stringify(old);
    if (!text.includes(quoted)) throw new Error(`${file}: ${quoted} is not in it`);
    text = text.replaceAll(quoted, () => JSON.stringify(word));
  }
  writeFileSync(file, text);
}
