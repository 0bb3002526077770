// The labelled questions, put to the page and to `wirelore find`: the same first answer, and no sign out of order.
import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";

const QUESTIONS = new URL("../../../search/questions.tsv", import.meta.url);
/** So many of a hundred first answers must be those of `find`. */
const LEAST = 97;
/** A card that has none of what is asked, though other cards do. */
const NOTHING = "d3 hold off strobe";

export async function parity(tally, page, { program, library }) {
  const lines = readFileSync(QUESTIONS, "utf8").split("\n").filter((line) => line !== "" && !line.startsWith("#"));
  const questions = lines.map((line) => line.split("\t"));
  const answers = await page.evaluate(asked, questions.map(([, words]) => words));
  const [other, disordered] = [[], []];
  let whole = 0;
  questions.forEach(([, words, sign], at) => {
    const wanted = found(program, library, words);
    if (wanted[0] !== answers[at][0]?.key) other.push(`${words}: ${answers[at][0]?.key} instead of ${wanted[0]}`);
    if (String(wanted) === String(answers[at].map(({ key }) => key))) whole += 1;
    if (sign !== "." && isDisordered(answers[at], sign)) disordered.push(words);
  });
  const same = questions.length - other.length;
  console.log(`parity with find: first answer the same for ${same} of ${questions.length}, all ten for ${whole}`);
  tally.check("pocket: first answers as find's", same * 100 >= LEAST * questions.length ? [] : other);
  tally.check("pocket: signs in order", disordered);
  const nothing = await page.evaluate(told, NOTHING);
  tally.check("pocket: where nothing is found, nothing has the most of it", /Nothing found/.test(nothing) && !/the most/.test(nothing) ? [] : [nothing]);
}

/** Runs in the page: types a question and reads what is said of its answer. */
function told(words) {
  const input = document.getElementById("words");
  input.value = words;
  input.dispatchEvent(new Event("input", { bubbles: true }));
  return document.getElementById("said").textContent;
}

/** Runs in the page: types each question and reads the hits. */
function asked(questions) {
  const input = document.getElementById("words");
  return questions.map((words) => {
    input.value = words;
    input.dispatchEvent(new Event("input", { bubbles: true }));
    const hits = [...document.querySelectorAll("#hits > li[data-kind]")];
    return hits.map(({ dataset }) => ({ key: `${dataset.card} ${dataset.kind} ${dataset.mark} ${dataset.text}`, side: dataset.side, opposite: dataset.opposite === "true" }));
  });
}

function found(program, library, words) {
  const args = ["--library", library, "find", "--json", "--", ...words.split(" ")];
  let out;
  try {
    out = execFileSync(program, args, { stdio: ["ignore", "pipe", "ignore"] });
  } catch (error) {
    // Nothing found is an exit code of its own.
    if (error.status !== 1) throw error;
    out = error.stdout;
  }
  return JSON.parse(out).hits.map((hit) => `${hit.card} ${hit.kind} ${hit.mark ?? ""} ${hit.text.slice(0, 40)}`);
}

/** Whether a hit on the other side stands above one on the side asked for, or does not say so. */
function isDisordered(hits, sign) {
  const [asked, other] = sign === "+" ? ["positive", "negative"] : ["negative", "positive"];
  const first = hits.findIndex((hit) => hit.side.includes(other));
  const late = first >= 0 && hits.slice(first).some((hit) => hit.side.includes(asked));
  return late || hits.some((hit) => hit.side.includes(other) !== hit.opposite);
}
