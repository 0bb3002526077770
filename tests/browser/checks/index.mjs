// The office's page: sorting, filtering, ticking, and the parts added up, held against the packs' own lists of parts.
import { readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { pathToFileURL } from "node:url";
import { open } from "../lib/browser.mjs";

/** The long index has the demo's rows this many times. */
const TIMES = 300;
/** So many rows are shown at once. */
const STEP = 100;

export async function index(tally, browser, packs, scratch) {
  const file = join(packs, "index.html");
  const visit = async (name, at, look, options = {}) => {
    const context = await browser.newContext(options);
    const { page, complaints } = await open(context, pathToFileURL(at).href);
    tally.check(`index: ${name}`, [...(await look(page)), ...complaints]);
    await context.close();
  };
  await visit("without its script", file, plain, { javaScriptEnabled: false });
  await visit("parts of all packs", file, (page) => partsAgree(page, packs));
  await visit("found by words", file, (page) => words(page, packs));
  await visit("found by state and reason", file, (page) => stateAndReason(page, packs));
  await visit("parts of the ticked packs", file, (page) => tickedParts(page, packs));
  await visit("sorted", file, sorted);
  await visit("many rows", long(file, scratch), many);
}

/** Two plain tables, and no control that would do nothing. */
async function plain(page) {
  const [packs, parts] = [await page.locator(".packs tbody tr").count(), await page.locator(".parts tbody tr").count()];
  const found = [];
  if (packs < 5 || parts < 5) found.push(`${packs} packs, ${parts} parts`);
  if (await page.locator("button:visible, input:visible, select:visible").count()) found.push("a control that does nothing is shown");
  return found;
}

async function words(page, packs) {
  await find(page, "#words", "quillace NOT");
  const rows = await shown(page);
  const wrong = rows.filter((row) => row[1] !== "NOT READY" || !row.join(" ").includes("Quillace"));
  return [...wrong.map((row) => row.join(" | ")), ...(rows.length > 0 ? [] : ["nothing is found"]), ...(await partsAgree(page, packs))];
}

async function stateAndReason(page, packs) {
  const found = [];
  await page.locator("#state").selectOption("READY");
  await settled(page);
  const ready = await shown(page);
  found.push(...ready.filter((row) => row[1] !== "READY").map((row) => row.join(" | ")), ...(await partsAgree(page, packs)));
  await page.locator("#state").selectOption("");
  const option = page.locator("#reason option").nth(1);
  await page.locator("#reason").selectOption(await option.getAttribute("value"));
  await settled(page);
  const [, count] = (await option.textContent()).match(/\((\d+)\)/);
  const rows = await shown(page);
  if (rows.length !== Number(count)) found.push(`${rows.length} rows for a reason of ${count} packs`);
  return [...found, ...(await partsAgree(page, packs))];
}

async function tickedParts(page, packs) {
  const boxes = page.locator(".packs tbody .tick > input");
  await boxes.nth(1).check();
  await boxes.nth(4).check();
  const found = await partsAgree(page, packs);
  await page.locator("#pick").click();
  found.push(...(await partsAgree(page, packs)));
  await page.locator("#unpick").click();
  const left = await page.locator(".packs .tick > input:checked").count();
  return left === 0 ? found : [...found, `${left} ticks are left`];
}

async function sorted(page) {
  const found = [];
  const button = page.locator(".packs thead button").filter({ hasText: "Blockers" });
  for (const [down, word] of [[false, "ascending"], [true, "descending"]]) {
    await button.click();
    const numbers = (await shown(page)).map((row) => Number(row[7]));
    const right = [...numbers].sort((a, b) => (down ? b - a : a - b));
    if (String(numbers) !== String(right)) found.push(`${word}: ${numbers}`);
    if ((await page.locator(`th[aria-sort="${word}"]`).count()) !== 1) found.push(`no head says ${word}`);
  }
  return found;
}

/** A page with the demo's rows many times over. */
function long(file, scratch) {
  const text = readFileSync(file, "utf8");
  const [, rows] = text.match(/<tbody>\n([^]*?)<\/tbody>/);
  const to = join(scratch, "long-index.html");
  writeFileSync(to, text.replace(rows, () => rows.repeat(TIMES)));
  return to;
}

async function many(page) {
  const found = [];
  const expect = (what, is, wanted) => is === wanted || found.push(`${what}: ${is} instead of ${wanted}`);
  const all = Number((await page.locator("#said").textContent()).match(/of (\d+) packs/)[1]);
  expect("shown at first", (await shown(page)).length, STEP);
  await page.locator("#more").click();
  expect("shown after more", (await shown(page)).length, 2 * STEP);
  await find(page, "#words", "lantern");
  expect("found", (await shown(page)).length, STEP);
  expect("said", (await page.locator("#said").textContent()).split(" ")[0], String(TIMES));
  await page.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
  expect("on paper", (await shown(page)).length, TIMES);
  await page.evaluate(() => window.dispatchEvent(new Event("afterprint")));
  expect("after paper", (await shown(page)).length, STEP);
  if (all % TIMES !== 0) found.push(`${all} rows`);
  return found;
}

async function find(page, field, text) {
  await page.locator(field).fill(text);
  await settled(page);
}

/** The page waits a little before it filters, so that it does not do so at every letter. */
function settled(page) {
  return page.waitForTimeout(400);
}

/** The cells of the rows that are shown. */
function shown(page) {
  return page.locator(".packs tbody tr").evaluateAll((rows) => rows.map((row) => [...row.cells].map((cell) => cell.textContent.trim())));
}

/** Holds the parts on the page against the lists of the packs that are ticked, or shown if none is. */
async function partsAgree(page, packs) {
  const links = await page.locator(".packs tbody tr").evaluateAll((rows) => {
    const ticked = rows.filter((row) => row.querySelector(".tick > input").checked);
    return (ticked.length > 0 ? ticked : rows).map((row) => row.querySelector("a").getAttribute("href"));
  });
  const wanted = {};
  for (const link of links) {
    for (const [count, what] of await ownParts(page, join(packs, dirname(link), "pack.html"))) wanted[what] = (wanted[what] ?? 0) + count;
  }
  const rows = await page.locator(".parts tbody tr:visible").evaluateAll((rows) => rows.map((row) => [...row.cells].map((cell) => cell.textContent)));
  const given = Object.fromEntries(rows.map(([count, what]) => [what, Number(count)]));
  const names = [...new Set([...Object.keys(wanted), ...Object.keys(given)])];
  const found = names.filter((name) => wanted[name] !== given[name]).map((name) => `${name}: ${given[name]} instead of ${wanted[name]}`);
  return names.length > 0 ? found : ["no parts"];
}

/** The parts of a pack, as its own page lists them. */
function ownParts(page, file) {
  // Without its style, which the index's own policy would complain of.
  const text = readFileSync(file, "utf8").replace(/<style>[^]*?<\/style>/g, "");
  return page.evaluate((text) => {
    const pack = new DOMParser().parseFromString(text, "text/html");
    const table = pack.querySelector(".before-leaving table");
    return [...table.tBodies[0].rows].map((row) => [Number(row.cells[0].textContent), row.cells[1].textContent]);
  }, text);
}
