// Ten cards whose words try to run, to end their element, to hide or to push the page apart; each has a note with a picture
// whose words and neighbours try the same.
import { execFileSync } from "node:child_process";
import { cpSync, mkdirSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

const RUN = "window.hostileRan = true";
const WORDS = [
  `</script><script>${RUN}</script>`,
  `<!--<script>${RUN}//`,
  `<img src=x onerror=${RUN}>`,
  `</template></main></title></style><svg onload=${RUN}>`,
  `\\u003cscript>${RUN}\\u003c/script>`,
  `javascript:${encodeURIComponent(RUN)}`,
  `"]}],"x":[{"y":"${"]".repeat(40)}`,
  "\u202egnp.exe \u2066\u2028 \u{1F525} e\u0301\u0302\u0303",
  "x".repeat(600),
  `__proto__ constructor toString hasOwnProperty ${RUN}`,
];

/** A note whose picture says `word`; beside it, images that must stay words. */
const note = (word) => `---
date: 2026-11-04
---
![${word.replace(/[[\]\\`<]/g, "\\$&")}](lid.png)

![away](https://example.org/p.png) ![up](../lid.png) ![run](javascript:${encodeURIComponent(RUN)}.png) ${word}

| a | b |
|---|---|
| ${word} | <img src=x onerror=${RUN}> |
`;

export async function hostile(tally, { program, library, scratch, visit }) {
  const own = join(scratch, "hostile");
  cpSync(library, own, { recursive: true });
  const panels = readdirSync(join(own, "panels")).sort();
  const cards = WORDS.map((word, at) => {
    const from = panels[at % panels.length];
    const id = `hostile-${at}`;
    const text = readFileSync(join(own, "panels", from), "utf8").replace(/^id: .*$/m, `id: ${id}`).replace(/^model: .*$/m, `model: ${JSON.stringify(`Hostile ${at} ${word.slice(0, 60)}`)}`);
    // Every sentence in quotes becomes the word.
    const told = text.replace(/(does|guards|where): "[^"]*"/g, (_, key) => `${key}: ${JSON.stringify(word)}`);
    writeFileSync(join(own, "panels", `${id}.yaml`), `${told.trimEnd()}\n`);
    mkdirSync(join(own, "notes", id));
    writeFileSync(join(own, "notes", id, "2026-11-04-lid.md"), note(word));
    cpSync(join(own, "notes", "merrowby-mb6", "lk2.png"), join(own, "notes", id, "lid.png"));
    return id;
  });
  const file = join(scratch, "hostile.html");
  execFileSync(program, ["--library", own, "pocket", "-o", file], { stdio: ["ignore", "ignore", "pipe"] });
  await visit("hostile cards", pathToFileURL(file).href, { width: 360, height: 640 }, async (page) => {
    const found = [];
    for (const [at, id] of cards.entries()) {
      await page.evaluate((hash) => (location.hash = hash), `#${id}`);
      const title = await page.locator("h1").textContent();
      if (!title.includes(`Hostile ${at}`)) found.push(`${id}: shows ${title}`);
      const shown = await page.evaluate(pictures);
      if (shown !== "1 of 1") found.push(`${id}: pictures shown: ${shown}`);
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      if (wide > 0) found.push(`${id}: ${wide} px beyond the screen`);
      await page.evaluate((words) => (location.hash = `#?${encodeURIComponent(words)}`), `${id} ${WORDS[at]}`);
      await page.locator("#hits").waitFor({ state: "attached" });
    }
    for (const hash of ["#__proto__", "#constructor/x", "#%E0%A4%A", `#?${encodeURIComponent("<img src=x onerror=alert(1)>")}`]) await page.evaluate((to) => (location.hash = to), hash);
    if (await page.evaluate(() => "hostileRan" in window)) found.push("a word of a card ran");
    if (await page.evaluate(() => document.querySelectorAll("#view script, #view img:not(.picture > img), #view svg, #view iframe").length > 0)) found.push("a word of a card became an element");
    tally.check("pocket: hostile cards run nothing", found);
  });
}

/** Runs in the page: how many of its images are whole pictures with words. */
async function pictures() {
  const images = [...document.querySelectorAll("#view img")];
  await Promise.allSettled(images.map((image) => image.decode()));
  const whole = images.filter((image) => image.naturalWidth > 0 && image.alt !== "" && image.src.startsWith("data:image/png;"));
  return `${whole.length} of ${images.length}`;
}
