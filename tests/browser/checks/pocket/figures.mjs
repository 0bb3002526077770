// The page's calculators beside `wirelore figure`, on made-up numbers: the same to a billionth part.
import { execFileSync } from "node:child_process";
import { readdirSync } from "node:fs";
import { join } from "node:path";

const COUNT = 500;
const PART = 1e-9;
/** The program prints nine decimals: what that rounds off is no difference. */
const ROUNDED = 5.1e-10;

export async function figures(tally, page, { program, library }) {
  const random = rng(20261129);
  const cards = (folder) => readdirSync(join(library, folder)).filter((file) => file.endsWith(".yaml")).map((file) => file.replace(".yaml", "")).sort();
  const there = { cables: cards("cables"), boards: cards("boards") };
  await page.evaluate(() => (location.hash = "#/figures"));
  await page.locator("form#battery").waitFor({ state: "attached" });
  const wrong = [];
  for (let at = 0; COUNT > at; at += 1) {
    const question = [drop, loop, battery][at % 3](random, there);
    const own = await page.evaluate(filled, { form: question.form, fields: question.fields });
    const args = Object.entries(question.args).flatMap(([key, value]) => (value === true ? [`--${key}`] : [`--${key}`, value]));
    const theirs = JSON.parse(execFileSync(program, ["--library", library, "figure", question.form, "--json", ...args], { stdio: ["ignore", "pipe", "ignore"] }));
    const pairs = question.pairs(own, theirs);
    for (const [name, ours, wanted] of pairs) if (!near(ours, wanted)) wrong.push(`${question.form} ${JSON.stringify(question.args)}: ${name} ${ours} instead of ${wanted}`);
  }
  console.log(`figures beside those of the program: ${COUNT} questions, ${wrong.length} figures otherwise`);
  tally.check("pocket: figures as the program's", wrong);
}

/** Runs in the page: fills in a form and reads its answer. */
function filled({ form, fields }) {
  const element = document.getElementById(form);
  element.reset();
  for (const [key, value] of Object.entries(fields)) {
    const control = element.querySelector(`[name="${key}"]`);
    if (value === true) control.checked = true;
    else control.value = value;
  }
  element.dispatchEvent(new Event("input", { bubbles: true }));
  return JSON.parse(element.querySelector("output").dataset.value);
}

function near(a, b) {
  if (typeof a !== "number" || typeof b !== "number") return (a ?? null) === (b ?? null);
  return PART * Math.max(Math.abs(a), Math.abs(b)) + ROUNDED >= Math.abs(a - b);
}

/** The cores: of a card, of copper, or of so many ohms. */
function cores(random, there) {
  const kind = random.below(3);
  if (kind === 0) return random.pick(there.cables, (it) => [{ cable: it }, { cable: it }]);
  if (kind === 1) return random.number(0.1, 1.5, (it) => [{ area: it }, { area: `${it} mm2` }]);
  return random.number(20, 200, (it) => [{ ohms_per_km: it }, { "ohms-per-km": `${it} ohm` }]);
}

/** A field with its option: always, or half of the time. */
function quantity(random, [fields, args], name, unit, low, high, always = false) {
  if (!always && random.below(2) === 0) return;
  random.number(low, high, (it) => {
    fields[name] = it;
    args[name.replaceAll("_", "-")] = unit === "" ? it : `${it} ${unit}`;
  });
}

function drop(random, there) {
  const both = cores(random, there);
  quantity(random, both, "volts", "V", 10, 15, true);
  quantity(random, both, "current", "A", 0.01, 1.5, true);
  quantity(random, both, "length", "m", 1, 120, true);
  for (const [name, unit, low, high] of [["trigger", "A", 0.01, 0.5], ["supply_drop", "V", 0.1, 0.6], ["needs", "V", 8, 11], ["temperature", "C", -10, 50]]) quantity(random, both, name, unit, low, high);
  for (const name of ["positive", "negative"]) {
    const count = String(1 + random.below(3));
    both[0][name] = count;
    both[1][name] = count;
  }
  const pairs = (own, theirs) => [["volts", own.volts, theirs.far_end_v], ["ok", own.ok, theirs.ok], ["longest", own.longest, theirs.longest_m]];
  return { form: "drop", fields: both[0], args: both[1], pairs };
}

function loop(random, there) {
  const both = cores(random, there);
  random.pick(["closed-loop", "single-eol", "double-eol"], (it) => both.forEach((one) => (one.wiring = it)));
  random.pick(there.boards, (it) => both.forEach((one) => (one.board = it)));
  quantity(random, both, "length", "m", 30, 120, true);
  quantity(random, both, "shortest", "m", 1, 30);
  for (const [name, low, high] of [["series", 0, 2200], ["tamper_series", 0, 100], ["end", 800, 10000], ["alarm", 800, 10000]]) quantity(random, both, name, "ohm", low, high);
  quantity(random, both, "tolerance", "%", 0.5, 10);
  quantity(random, both, "temperature", "C", -10, 50);
  const keys = [["ohms", "ohms"], ["low", "low_ohms"], ["high", "high_ohms"], ["reads", "reads"], ["ok", "ok"], ["open", "open"], ["state", "state"]];
  const pairs = (own, theirs) => theirs.states.flatMap((state, at) => keys.map(([ours, name]) => [`${state.state} ${name}`, own[at]?.[ours], state[name]]));
  return { form: "loop", fields: both[0], args: both[1], pairs };
}

function battery(random) {
  const both = [{ rules: "en-50131" }, { rules: "en-50131" }];
  quantity(random, both, "standby", "A", 0.02, 0.6, true);
  quantity(random, both, "alarm", "A", 0.1, 2.5, true);
  random.pick(["1", "2", "3"], (it) => both.forEach((one) => (one.grade = it)));
  if (random.below(2) === 0) both.forEach((one) => (one.reported = true));
  quantity(random, both, "capacity", "Ah", 1, 20);
  quantity(random, both, "charge", "A", 0.1, 1);
  quantity(random, both, "temperature", "C", -10, 50);
  const keys = [["required", "required_ah"], ["fitted", "fitted_ah"], ["enough", "enough"], ["smallest", "smallest_enough_ah"], ["hours", "standby_h"], ["alarmHours", "alarm_h"], ["recharge", "recharge_h"]];
  return { form: "battery", fields: both[0], args: both[1], pairs: (own, theirs) => keys.map(([ours, name]) => [name, own[ours], theirs[name]]) };
}

/** The same made-up numbers at every run (mulberry32). */
function rng(seed) {
  let state = seed;
  const next = () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  const below = (count) => Math.floor(next() * count);
  const number = (low, high, use) => use(String(Number((low + next() * (high - low)).toPrecision(4))));
  return { below, number, pick: (list, use) => use(list[below(list.length)]) };
}
