// Ticks: they survive a reload, a closed page and a closed browser; a step that changed does not inherit one; they can be
// cleared; and a browser that refuses its store does no harm.
import { cpSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { pathToFileURL } from "node:url";
import { launchKept, open } from "../lib/browser.mjs";

const SAFETY = ".safety-in-order .tick > input";
const TEST = ".test-sheet .tick > input";

/** Looks at one pack, copied to where it may be changed, and at its neighbour. */
export async function ticks(tally, pages, scratch) {
  const [one, other] = pages.filter((page) => page.sort === "pack").map((page) => page.file);
  const place = copy(one, join(scratch, "one", "pack.html"));
  const neighbour = copy(other, join(scratch, "other", "pack.html"));
  const profile = join(scratch, "profile");
  const visit = async (name, url, look) => {
    const context = await launchKept(profile);
    const { page, complaints } = await open(context, url.href);
    const found = await look(page, complaints);
    tally.check(`ticks: ${name}`, [...found, ...complaints]);
    await context.close();
  };

  await visit("set, then the page read again", place.url, async (page) => {
    await page.locator(SAFETY).nth(0).check();
    await page.locator(SAFETY).nth(2).check();
    await page.locator(TEST).nth(1).check();
    await page.reload();
    return expected(await ticked(page), [[SAFETY, [0, 2]], [TEST, [1]]]);
  });
  await visit("the browser closed and opened", place.url, async (page) => {
    const found = expected(await ticked(page), [[SAFETY, [0, 2]], [TEST, [1]]]);
    await page.locator(SAFETY).nth(2).uncheck();
    return found;
  });
  await visit("another pack has none of them", neighbour.url, async (page) => expected(await ticked(page), [[SAFETY, []], [TEST, []]]));

  const title = await firstStep(place);
  writeFileSync(place.file, readFileSync(place.file, "utf8").replaceAll(title, `${title}, otherwise`));
  await visit("a step that changed", place.url, async (page) => {
    const found = expected(await ticked(page), [[SAFETY, []], [TEST, [1]]]);
    await page.locator(SAFETY).nth(3).check();
    return found;
  });
  await visit("cleared", place.url, async (page, complaints) => {
    await page.locator(".jump > summary").click();
    await page.locator("#clear").click();
    // The first answer to the question is no.
    const found = complaints.splice(0).length === 1 ? [] : ["nothing was asked before clearing"];
    found.push(...expected(await ticked(page), [[SAFETY, [3]], [TEST, [1]]]));
    page.removeAllListeners("dialog");
    page.on("dialog", (dialog) => dialog.accept());
    await page.locator("#clear").click();
    await page.reload();
    return [...found, ...expected(await ticked(page), [[SAFETY, []], [TEST, []]])];
  });
  await visit("a browser that refuses its store", place.url, async (page) => {
    await page.addInitScript(() => Object.defineProperty(window, "localStorage", { get: () => { throw new DOMException("refused", "SecurityError"); } }));
    await page.reload();
    await page.locator(SAFETY).nth(0).check();
    return expected(await ticked(page), [[SAFETY, [0]], [TEST, []]]);
  });
}

function copy(file, to) {
  mkdirSync(dirname(to), { recursive: true });
  cpSync(file, to);
  return { file: to, url: pathToFileURL(to) };
}

/** The words of the first safety step, as they stand in the file. */
async function firstStep({ file }) {
  const found = readFileSync(file, "utf8").match(/<section class="safety-in-order">[^]*?<label class="tick">[^]*?<strong>([^<]+)<\/strong>/);
  if (!found) throw new Error(`${file}: no safety step`);
  return found[1];
}

/** Which boxes of a kind are ticked. */
function ticked(page) {
  const kinds = [SAFETY, TEST];
  return page.evaluate((kinds) => {
    const of = (kind) => [...document.querySelectorAll(kind)].flatMap((box, at) => (box.checked ? [at] : []));
    return Object.fromEntries(kinds.map((kind) => [kind, of(kind)]));
  }, kinds);
}

function expected(ticked, wanted) {
  return wanted.flatMap(([kind, places]) => (String(ticked[kind]) === String(places) ? [] : [`${kind}: [${ticked[kind]}] instead of [${places}]`]));
}
