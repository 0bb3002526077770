// The page for the pocket, from a file with the network off, on two phones by touch: `node pocket.mjs PROGRAM LIBRARY PACKS [FOLDER]`.
// With a folder, pictures of its views are put there to be looked at. The last line says how many checks passed and failed.
import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { launch, open } from "./lib/browser.mjs";
import { Tally } from "./lib/tally.mjs";
import { figures } from "./checks/pocket/figures.mjs";
import { hostile } from "./checks/pocket/hostile.mjs";
import { parity } from "./checks/pocket/parity.mjs";
import { readings } from "./checks/pocket/readings.mjs";
import { views } from "./checks/pocket/views.mjs";

const [program, library, packs, pictures] = process.argv.slice(2, 6).map((path) => resolve(path));
if (!packs) {
  console.error("usage: node pocket.mjs PROGRAM LIBRARY PACKS [FOLDER]");
  process.exit(2);
}

const PHONES = [{ width: 360, height: 640 }, { width: 412, height: 915 }];
const tally = new Tally();
const scratch = mkdtempSync(join(tmpdir(), "wirelore-pocket-"));
const browser = await launch();
try {
  const file = join(scratch, "pocket.html");
  execFileSync(program, ["--library", library, "pocket", "--packs", packs, "-o", file], { stdio: ["ignore", "ignore", "inherit"] });
  const url = pathToFileURL(file).href;
  for (const viewport of PHONES) {
    await visit(`${viewport.width}x${viewport.height}`, url, viewport, (page, complaints) => views(tally, page, { url, viewport, pictures, complaints }));
  }
  await visit("parity", url, PHONES[0], (page) => parity(tally, page, { program, library }));
  await visit("figures", url, PHONES[0], (page) => figures(tally, page, { program, library }));
  await readings(tally, { url, program, library, scratch });
  await hostile(tally, { program, library, scratch, visit });
} finally {
  await browser.close();
  rmSync(scratch, { recursive: true, force: true, maxRetries: 10, retryDelay: 200 });
}
tally.close();

/** Opens the page without a network, looks at it, and asks that it stayed silent and alone. */
async function visit(name, url, viewport, look) {
  const context = await browser.newContext({ viewport, hasTouch: true, isMobile: true, offline: true });
  const { page, complaints } = await open(context, url);
  await look(page, complaints);
  tally.check(`pocket, ${name}: silent and alone`, complaints);
  await context.close();
}
