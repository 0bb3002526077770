// A page on a screen: from a phone to a desk, by day and in the dark.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";

const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];
const WIDTHS = [360, 768, 1280];
/** The smallest box that a finger in a glove finds, in CSS pixels. */
const TARGET = 44;

/** Layout at every width, and what axe finds on a phone and at a desk, light and dark. */
export async function screen(tally, page, { name, sort }) {
  // axe is put in without a script element: the page forbids every script but its own.
  await page.evaluate(AXE);
  for (const width of WIDTHS) {
    await page.setViewportSize({ width, height: 740 });
    tally.check(`${name}: layout at ${width}`, await page.evaluate(layout, { target: TARGET, sort }));
    // What tells a phone's page from a desk's is its layout, so the one in between adds nothing for axe.
    if (width === 768) continue;
    for (const colorScheme of ["light", "dark"]) {
      await page.emulateMedia({ colorScheme });
      tally.check(`${name}: axe, ${colorScheme}, ${width}`, await axe(page, colorScheme));
    }
    await page.emulateMedia({ colorScheme: "light" });
  }
}

/** What axe finds. By day every rule is asked; in the dark those of colour, for nothing else changes. */
async function axe(page, colorScheme) {
  const only = colorScheme === "light" ? { type: "tag", values: TAGS } : { type: "rule", values: ["color-contrast", "link-in-text-block"] };
  const violations = await page.evaluate(async (runOnly) => {
    const result = await globalThis.axe.run(document, { runOnly, resultTypes: ["violations"] });
    return result.violations.map((v) => ({ id: v.id, help: v.help, nodes: v.nodes.map((n) => n.html.slice(0, 160)) }));
  }, only);
  return violations.flatMap((v) => v.nodes.map((html) => `${v.id}: ${v.help}: ${html}`));
}

/** Runs in the page: what does not fit. */
function layout({ target, sort }) {
  const found = [];
  const root = document.documentElement;
  if (root.scrollWidth > innerWidth) found.push(`the page is ${root.scrollWidth} wide on a screen of ${innerWidth}`);
  const text = parseFloat(getComputedStyle(document.body).fontSize);
  if (text < 16) found.push(`text of ${text} px`);
  for (const part of document.querySelectorAll("main > *")) {
    const box = part.getBoundingClientRect();
    if (box.right > innerWidth + 1 || box.left < -1) found.push(`<${part.tagName.toLowerCase()}> reaches from ${box.left} to ${box.right}`);
  }
  if (innerWidth < 500) {
    for (const part of document.querySelectorAll("button, summary, input, select, nav a")) {
      if (!part.checkVisibility()) continue;
      const label = part.closest("label") ?? part;
      const [a, b] = [part, label].map((e) => e.getBoundingClientRect());
      const [width, height] = [Math.max(a.width, b.width), Math.max(a.height, b.height)];
      if (Math.min(width, height) < target - 0.5) found.push(`${part.outerHTML.slice(0, 90)} is ${width} by ${height}`);
    }
  }
  const bar = document.querySelector("header.bar");
  if (sort !== "pack") return found;
  scrollTo(0, root.scrollHeight / 2);
  const place = bar?.getBoundingClientRect();
  if (!place || place.top !== 0) found.push("the line at the top does not stay there");
  else if (!/^(NOT )?READY/.test(bar.innerText.trim())) found.push(`the line at the top begins with ${bar.innerText.slice(0, 20)}`);
  scrollTo(0, 0);
  for (const link of document.querySelectorAll("header.bar nav a")) {
    if (!document.getElementById(link.hash.slice(1))) found.push(`${link.hash} leads nowhere`);
  }
  return found;
}
