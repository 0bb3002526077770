// How soon a page for the pocket answers on a slow phone: `node measure.mjs FILE…`, each file in turn, and an empty page beside
// them. Times are in milliseconds, each the middle of several runs. Nothing is asserted: figures depend on the machine, and on
// what else runs on it; RUNS says how often. Two measures:
//  - by the clock, with the processor slowed six times by chromium;
//  - the processor time that the page took, not slowed, six times: what else waits for the processor does not count.
// The pages are asked by a session of their own, since playwright's pages record all that they read, which takes time too.
import { resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { loadavg } from "node:os";
import { launch } from "./lib/browser.mjs";

const SLOWER = 6;
const RUNS = Number(process.env.RUNS ?? 15);
const TYPED = "strobe trigger";
const EMPTY = "data:text/html,<p>Empty";

const browser = await launch();
const root = await browser.newBrowserCDPSession();
const files = process.argv.slice(2).map((file) => [file, pathToFileURL(resolve(file)).href]);
console.log(`machine busy with ${loadavg()[0].toFixed(1)} programs; the middle of ${RUNS} runs`);
for (const [name, run] of [[`by the clock, slowed ${SLOWER} times`, byTheClock], [`processor time, times ${SLOWER}`, byProcessor]]) {
  const all = new Map([["an empty page", EMPTY], ...files].map(([file, url]) => [file, { url, runs: [] }]));
  for (let at = 0; RUNS > at; at += 1) for (const { url, runs } of all.values()) runs.push(await inPage((page) => run(page, url)));
  console.log(`${name}:`);
  for (const [file, { runs }] of all) console.log(`  ${file}: ${told(runs)}`);
}
await browser.close();

/** Does something with a page that nobody records. */
async function inPage(work) {
  const { browserContextId } = await root.send("Target.createBrowserContext");
  const { targetId } = await root.send("Target.createTarget", { url: "about:blank", browserContextId });
  const { sessionId } = await root.send("Target.attachToTarget", { targetId, flatten: false });
  const waiting = new Map();
  const hear = (from) => {
    if (from.sessionId !== sessionId) return;
    const { id, method, result, error } = JSON.parse(from.message);
    waiting.get(id ?? method)?.(error ? Promise.reject(new Error(error.message)) : result);
  };
  root.on("Target.receivedMessageFromTarget", hear);
  const heard = (of) => new Promise((take) => waiting.set(of, take));
  let last = 0;
  const send = async (method, params = {}) => {
    const message = JSON.stringify({ id: (last += 1), method, params });
    const answer = heard(last);
    await root.send("Target.sendMessageToTarget", { sessionId, message });
    return answer;
  };
  const evaluate = async (expression) => {
    const { result, exceptionDetails } = await send("Runtime.evaluate", { expression, returnByValue: true });
    if (exceptionDetails) throw new Error(exceptionDetails.exception?.description ?? exceptionDetails.text);
    return result.value;
  };
  const open = async (url) => {
    const loaded = heard("Page.loadEventFired");
    const { errorText } = await send("Page.navigate", { url });
    if (errorText) throw new Error(`${url}: ${errorText}`);
    await loaded;
  };
  await send("Page.enable");
  await send("Emulation.setDeviceMetricsOverride", { width: 360, height: 640, deviceScaleFactor: 2, mobile: true });
  try {
    return await work({ send, open, evaluate });
  } finally {
    root.off("Target.receivedMessageFromTarget", hear);
    await root.send("Target.disposeBrowserContext", { browserContextId });
  }
}

async function byTheClock({ send, open, evaluate }, url) {
  await send("Emulation.setCPUThrottlingRate", { rate: SLOWER });
  await open(url);
  // From the beginning of the navigation until the page stands: the page's own clock, which the slowing slows not.
  const times = [await evaluate("performance.timing.loadEventEnd - performance.timing.navigationStart")];
  if (url !== EMPTY) for (const letter of TYPED) times.push(await evaluate(`(${type})("${letter}")`));
  return times;
}

async function byProcessor({ send, open, evaluate }, url) {
  await send("Performance.enable", { timeDomain: "threadTicks" });
  const taken = async () => {
    const { metrics } = await send("Performance.getMetrics");
    const of = (name) => metrics.find((one) => one.name === name).value * 1000 * SLOWER;
    return { task: of("TaskDuration"), page: of("ScriptDuration") + of("LayoutDuration") + of("RecalcStyleDuration") };
  };
  const before = await taken();
  await open(url);
  let last = await taken();
  const times = [last.task - before.task];
  for (const letter of url === EMPTY ? "" : TYPED) {
    await evaluate(`(${type})("${letter}")`);
    const now = await taken();
    times.push(now.page - last.page);
    last = now;
  }
  return times;
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

/** The middle of each time over all runs, and of opening and the first letter together. */
function told(runs) {
  const middle = (of) => Math.round(runs.map(of).toSorted((a, b) => a - b)[Math.floor(runs.length / 2)]);
  const opened = `opened in ${middle((times) => times[0])} ms`;
  if (runs[0].length === 1) return opened;
  const further = runs[0].slice(2).map((_, at) => middle((times) => times[at + 2]));
  const both = middle((times) => times[0] + times[1]);
  return `${opened}, first letter ${middle((times) => times[1])} ms later (together ${both}), each further: ${further.join(", ")} ms`;
}
