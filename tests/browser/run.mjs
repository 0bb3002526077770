// Every page of a folder of packs, in a real browser, as the people who use it meet it: on a phone, at a desk, on paper,
// by day and in the dark. `node run.mjs PACKS PROGRAM LIBRARY [WORD]`; with a word, only pages with it in their name. The last
// line says how many checks passed and failed.
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { launch, open } from "./lib/browser.mjs";
import { pagesOf, each } from "./lib/pages.mjs";
import { Tally } from "./lib/tally.mjs";
import { hostilePacks, sheets } from "./lib/made.mjs";
import { html } from "./checks/html.mjs";
import { index } from "./checks/index.mjs";
import { paper } from "./checks/paper.mjs";
import { screen } from "./checks/screen.mjs";
import { ticks } from "./checks/ticks.mjs";

const [packs, program, library] = process.argv.slice(2, 5).map((path) => resolve(path));
const word = process.argv[5] ?? "";
if (!library) {
  console.error("usage: node run.mjs PACKS PROGRAM LIBRARY [WORD]");
  process.exit(2);
}

const tally = new Tally();
const scratch = mkdtempSync(join(tmpdir(), "wirelore-browser-"));
const browser = await launch();
try {
  const all = [
    ...pagesOf(packs, "demo"),
    ...pagesOf(sheets(program, library, scratch), "sheet"),
    ...pagesOf(hostilePacks(program, library, scratch), "hostile"),
  ];
  const pages = all.filter((page) => page.name.includes(word));
  const nu = html(tally, pages);
  await each(pages, look);
  await ticks(tally, all, scratch);
  await index(tally, browser, packs, scratch);
  await nu;
} finally {
  await browser.close();
  rmSync(scratch, { recursive: true, force: true });
}
tally.close();

/** Everything about one page: on screens, on paper, and that it stays silent and alone meanwhile. */
async function look(at) {
  const context = await browser.newContext({ viewport: { width: 360, height: 740 } });
  const { page, complaints } = await open(context, at.url);
  await screen(tally, page, at);
  await paper(tally, page, at, scratch);
  if (await page.evaluate(() => "hostileRan" in window)) complaints.push("a word of the survey ran");
  tally.check(`${at.name}: silent and alone`, complaints);
  await context.close();
}
