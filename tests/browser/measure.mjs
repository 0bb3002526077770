// How soon the page for the pocket answers on a slow phone: `node measure.mjs FILE`. Times are in milliseconds, each the middle
// of several runs. Nothing is asserted: figures depend on the machine, and on what else runs on it. Two measures:
//  - by the clock, with the processor slowed six times by chromium;
//  - the processor time that the page took, not slowed, six times: what else waits for the processor does not count.
import { resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { loadavg } from "node:os";
import { launch } from "./lib/browser.mjs";

const SLOWER = 6;
const RUNS = 7;
const TYPED = "strobe trigger";

const browser = await launch();
const url = pathToFileURL(resolve(process.argv[2])).href;
console.log(`machine busy with ${loadavg()[0].toFixed(1)} programs`);
await measured(`by the clock, slowed ${SLOWER} times`, byTheClock);
await measured(`processor time, times ${SLOWER}`, byProcessor);
await browser.close();

/** Runs in a page of its own, several times, and prints the middle of each time. */
async function measured(name, run) {
  const [opened, letters] = [[], [...TYPED].map(() => [])];
  for (let at = 0; RUNS > at; at += 1) {
    const context = await browser.newContext({ viewport: { width: 360, height: 640 }, hasTouch: true, isMobile: true, offline: true });
    const page = await context.newPage();
    const { begun, times } = await run(page, await context.newCDPSession(page));
    opened.push(begun);
    times.forEach((time, letter) => letters[letter].push(time));
    await context.close();
  }
  const [first, ...further] = letters.map((times) => Math.round(middle(times)));
  console.log(`${name}: opened in ${Math.round(middle(opened))} ms, first letter ${first} ms later, each further: ${further.join(", ")} ms`);
}

async function byTheClock(page, cdp) {
  await cdp.send("Emulation.setCPUThrottlingRate", { rate: SLOWER });
  // From the beginning of the navigation until the page stands: the page's own clock, which the slowing slows not.
  await page.goto(url, { waitUntil: "load" });
  const begun = await page.evaluate(() => performance.timing.loadEventEnd - performance.timing.navigationStart);
  const times = [];
  for (const letter of TYPED) times.push(await page.evaluate(type, letter));
  return { begun, times };
}

async function byProcessor(page, cdp) {
  await cdp.send("Performance.enable", { timeDomain: "threadTicks" });
  const taken = async () => {
    const { metrics } = await cdp.send("Performance.getMetrics");
    const of = (name) => metrics.find((one) => one.name === name).value * 1000 * SLOWER;
    return { task: of("TaskDuration"), page: of("ScriptDuration") + of("LayoutDuration") + of("RecalcStyleDuration") };
  };
  const before = await taken();
  await page.goto(url, { waitUntil: "load" });
  let last = await taken();
  const begun = last.task - before.task;
  const times = [];
  for (const letter of TYPED) {
    await page.evaluate(type, letter);
    const now = await taken();
    times.push(now.page - last.page);
    last = now;
  }
  return { begun, times };
}

/** Runs in the page: types a letter, and waits until the answer has its place on the screen. */
function type(letter) {
  const words = document.getElementById("words");
  words.value += letter;
  const from = performance.now();
  words.dispatchEvent(new Event("input", { bubbles: true }));
  document.body.getBoundingClientRect();
  return performance.now() - from;
}

function middle(list) {
  return list.toSorted((a, b) => a - b)[Math.floor(list.length / 2)];
}
