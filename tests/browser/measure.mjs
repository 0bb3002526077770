// How soon the page for the pocket answers on a slow phone: `node measure.mjs FILE`. The processor is slowed six times; times
// are in milliseconds, each the middle of five runs. Nothing is asserted: figures depend on the machine.
import { resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { launch } from "./lib/browser.mjs";

const SLOWER = 6;
const RUNS = 5;
const TYPED = "strobe trigger";

const browser = await launch();
const url = pathToFileURL(resolve(process.argv[2])).href;
const opened = [];
const letters = [...TYPED].map(() => []);
for (let run = 0; RUNS > run; run += 1) {
  const context = await browser.newContext({ viewport: { width: 360, height: 640 }, hasTouch: true, isMobile: true, offline: true });
  const page = await context.newPage();
  const cdp = await context.newCDPSession(page);
  await cdp.send("Emulation.setCPUThrottlingRate", { rate: SLOWER });
  // From the beginning of the navigation until the page stands: the page's own clock, which the slowing slows not.
  await page.goto(url, { waitUntil: "load" });
  const begun = await page.evaluate(() => performance.timing.loadEventEnd - performance.timing.navigationStart);
  const times = await page.evaluate(async (typed) => {
    const words = document.getElementById("words");
    const out = [];
    for (const letter of typed) {
      words.value += letter;
      const from = performance.now();
      words.dispatchEvent(new Event("input", { bubbles: true }));
      // Drawn as well: style and layout are done when a height is known.
      document.body.getBoundingClientRect();
      out.push(performance.now() - from);
      await new Promise((done) => setTimeout(done, 30));
    }
    return out;
  }, TYPED);
  opened.push(begun + times[0]);
  times.forEach((time, at) => letters[at].push(time));
  if (process.argv[3]) console.log({ begun, times });
  await context.close();
}
await browser.close();
const middle = (list) => list.sort((a, b) => a - b)[Math.floor(list.length / 2)];
console.log(`opened and the first letter answered: ${Math.round(middle(opened))} ms`);
console.log(`each further letter: ${letters.slice(1).map((times) => Math.round(middle(times))).join(", ")} ms`);
