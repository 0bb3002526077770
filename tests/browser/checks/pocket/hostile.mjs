// Ten cards whose words try to run, to end their element, to hide or to push the page apart.
import { execFileSync } from "node:child_process";
import { cpSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
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
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      if (wide > 0) found.push(`${id}: ${wide} px beyond the screen`);
      await page.evaluate((words) => (location.hash = `#?${encodeURIComponent(words)}`), `${id} ${WORDS[at]}`);
      await page.locator("#hits").waitFor({ state: "attached" });
    }
    for (const hash of ["#__proto__", "#constructor/x", "#%E0%A4%A", `#?${encodeURIComponent("<img src=x onerror=alert(1)>")}`]) await page.evaluate((to) => (location.hash = to), hash);
    if (await page.evaluate(() => "hostileRan" in window)) found.push("a word of a card ran");
    if (await page.evaluate(() => document.querySelectorAll("#view script, #view img, #view svg, #view iframe").length > 0)) found.push("a word of a card became an element");
    tally.check("pocket: hostile cards run nothing", found);
  });
}
