// Blanks filled in survive a reload and a closed browser, are held against their windows at once, and the file that is saved
// reads back through the program to the same values.
import { execFileSync } from "node:child_process";
import { cpSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { launchKept, open } from "../../lib/browser.mjs";

const SURVEY = "lantern-bakery";
/** What is typed, what is said of it, and what the survey then has. */
const TYPED = [
  ["1.2", "13,65", "Within", "volts: 13.65 V"],
  ["1.3", "13.48 V", "Not held", "volts: 13.48 V"],
  ["2.1", "8.9", "OUTSIDE", "volts: 8.9 V"],
  ["3.1", "11.6", "Within", "ohms: 11.6 Ω"],
  ["3.2", "open", "Within", "ohms: open"],
  ["4.3", "0.36 A", "Within", "amps: 0.36 A"],
];

export async function readings(tally, { url, program, library, scratch }) {
  const profile = join(scratch, "profile");
  const visit = async (name, look) => {
    const context = await launchKept(profile);
    await context.setOffline(true);
    const { page, complaints } = await open(context, url);
    await page.setViewportSize({ width: 360, height: 640 });
    await page.evaluate((hash) => (location.hash = hash), `#/pack/${SURVEY}`);
    await page.locator("#test-sheet").waitFor({ state: "attached" });
    await opened(page);
    const found = await look(page);
    tally.check(`pocket: ${name}`, [...found, ...complaints.filter((one) => !one.startsWith("asked for blob:"))]);
    await context.close();
  };
  const blank = (page, row) => page.locator(`[id="read-${row}"]`);
  const values = (page) => Promise.all(TYPED.map(([row]) => blank(page, row).inputValue()));

  await visit("blanks are held against their windows, and survive a reload", async (page) => {
    const found = [];
    for (const [row, typed, said] of TYPED) {
      await blank(page, row).fill(typed);
      const told = await page.locator(`[id="read-${row}-said"]`).textContent();
      if (!told.startsWith(said)) found.push(`${row} ${typed}: "${told}" instead of ${said}`);
    }
    await page.locator('[id="done-1.2"]').check();
    await page.locator("section:not(#test-sheet) .tick > input").first().check();
    await page.reload();
    const kept = await values(page);
    if (String(kept) !== String(TYPED.map(([, typed]) => typed))) found.push(`after a reload: ${kept}`);
    return found;
  });
  const saved = join(scratch, "readings.yaml");
  await visit("blanks survive a closed browser, and are saved as a file", async (page) => {
    const found = [];
    if (String(await values(page)) !== String(TYPED.map(([, typed]) => typed))) found.push("a closed browser lost them");
    if (!(await page.locator("section:not(#test-sheet) .tick > input").first().isChecked())) found.push("a closed browser lost a tick");
    await page.locator("#save").click();
    if (!(await page.locator("#saved").textContent()).includes("day")) found.push("a day is not asked for");
    await page.locator("#readings-date").fill("2026-11-12");
    await page.locator("#readings-by").fill('K "M" #1');
    const download = page.waitForEvent("download");
    await page.locator("#save").click();
    await (await download).saveAs(saved);
    return found;
  });
  tally.check("pocket: the saved file reads back to the same values", back({ program, library, scratch, saved }));
  await visit("a browser that refuses its store says so", async (page) => {
    await page.addInitScript(() => Object.defineProperty(window, "localStorage", { get: () => { throw new DOMException("refused", "SecurityError"); } }));
    await page.reload();
    await page.locator(".danger", { hasText: "keeps nothing" }).first().waitFor();
    await opened(page);
    await blank(page, "1.2").fill("13.6");
    await page.evaluate(() => (location.hash = "#/packs"));
    await page.locator("h1", { hasText: "Packs" }).waitFor();
    await page.goBack();
    return (await blank(page, "1.2").inputValue()) === "13.6" ? [] : ["another view lost what was typed"];
  });
}

/** Opens every section of a pack. */
function opened(page) {
  return page.evaluate(() => document.querySelectorAll("details").forEach((one) => (one.open = true)));
}

function back({ program, library, scratch, saved }) {
  const own = join(scratch, "library");
  cpSync(library, own, { recursive: true });
  let code = 0;
  let out;
  try {
    out = execFileSync(program, ["--library", own, "readings", SURVEY, saved], { encoding: "utf8", stdio: ["ignore", "pipe", "pipe"] });
  } catch (error) {
    [code, out] = [error.status, error.stdout + error.stderr];
  }
  const found = [];
  const survey = readFileSync(join(own, "surveys", `${SURVEY}.yaml`), "utf8");
  const before = readFileSync(join(library, "surveys", `${SURVEY}.yaml`), "utf8");
  if (code !== 1 || !out.includes("OUTSIDE  2.1")) found.push(`exit code ${code}: ${out}`);
  if (!survey.startsWith(before)) found.push("something else of the survey changed");
  for (const [row, , , wanted] of TYPED) {
    const line = survey.split("\n").find((line) => line.includes(`row: "${row}"`));
    if (!line?.includes(wanted)) found.push(`${row}: ${line} has not ${wanted}`);
  }
  if (!survey.includes('by: "K \\"M\\" #1"')) found.push("by whom is not as typed");
  return found;
}
