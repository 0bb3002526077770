// The views of the page on a phone: what axe finds, what a thumb must hit, what the back button does, that danger stands first.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";

const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];
const TARGET = 44;
const VIEWS = [["find", "#/find"], ["hits", "#?hold%20off%20plus"], ["opposite", "#?A-"], ["nothing", "#?quil"], ["card", "#merrowby-mb6"], ["terminal", "#merrowby-mb6/STB"], ["figures", "#/figures"], ["packs", "#/packs"], ["pack", "#/pack/lantern-bakery"]];

export async function views(tally, page, { viewport, pictures }) {
  // axe is put in without a script element: the page forbids every script but its own.
  await page.evaluate(AXE);
  for (const [name, hash] of VIEWS) {
    const at = `pocket ${name}, ${viewport.width}`;
    await go(page, hash);
    if (name === "pack") await page.evaluate(() => document.querySelectorAll("details").forEach((one) => (one.open = true)));
    tally.check(`${at}: layout`, await page.evaluate(layout, TARGET));
    if (name === "card" || name === "pack") tally.check(`${at}: pictures`, await page.evaluate(pictured, name === "pack"));
    for (const colorScheme of ["light", "dark"]) {
      await page.emulateMedia({ colorScheme });
      tally.check(`${at}: axe, ${colorScheme}`, await axe(page));
      if (pictures) await page.screenshot({ path: join(pictures, `${name}-${viewport.width}-${colorScheme}.png`) });
    }
    if (pictures && (name === "card" || name === "pack")) {
      for (const colorScheme of ["light", "dark"]) {
        await page.emulateMedia({ colorScheme });
        await page.locator("#view img").first().scrollIntoViewIfNeeded();
        await page.screenshot({ path: join(pictures, `${name}-picture-${viewport.width}-${colorScheme}.png`) });
      }
    }
    await page.evaluate(() => (document.documentElement.style.fontSize = "200%"));
    tally.check(`${at}: layout in large text`, await page.evaluate(layout, TARGET));
    if (pictures && name === "terminal") await page.screenshot({ path: join(pictures, `${name}-${viewport.width}-large.png`) });
    await page.evaluate(() => (document.documentElement.style.fontSize = ""));
  }
  tally.check(`pocket, ${viewport.width}: ways through it`, await ways(page));
}

async function go(page, hash) {
  await page.evaluate((to) => (location.hash = to), hash);
  await page.waitForFunction((to) => location.hash === to && document.querySelector("#view > *") !== null, hash);
}

async function axe(page) {
  const violations = await page.evaluate(async (values) => {
    const result = await globalThis.axe.run(document, { runOnly: { type: "tag", values }, resultTypes: ["violations"] });
    return result.violations.map((v) => ({ id: v.id, help: v.help, nodes: v.nodes.map((n) => n.html.slice(0, 160)) }));
  }, TAGS);
  return violations.flatMap((v) => v.nodes.map((html) => `${v.id}: ${v.help}: ${html}`));
}

/** Runs in the page: what does not fit, and what a thumb can't hit. */
function layout(target) {
  const found = [];
  const root = document.documentElement;
  if (root.scrollWidth > innerWidth) found.push(`the page is ${root.scrollWidth} wide on a screen of ${innerWidth}`);
  for (const element of document.querySelectorAll("a, button, summary, select, input:not([type=checkbox]), label.tick")) {
    const box = element.getBoundingClientRect();
    // A link within a sentence is no target of its own.
    if (box.width === 0 || (element.localName === "a" && element.closest("p, li, td") && !element.closest("#hits, .back"))) continue;
    if (target > Math.round(box.height) || target > Math.round(box.width)) found.push(`${Math.round(box.width)}x${Math.round(box.height)}: ${element.outerHTML.slice(0, 100)}`);
  }
  return found;
}

/** Runs in the page: its pictures, or its drawings, are there and have words. */
async function pictured(drawings) {
  const found = [];
  const images = [...document.querySelectorAll("#view img")];
  await Promise.allSettled(images.map((image) => image.decode()));
  for (const image of images) {
    if (image.naturalWidth === 0) found.push(`a picture is not shown: ${image.alt}`);
    if (image.alt === "") found.push("a picture has no words");
  }
  const drawn = images.filter((image) => image.classList.contains("drawing")).length;
  if (drawings ? drawn === 0 : images.length === 0) found.push("no picture is there");
  return found;
}

/** From words to a hit, to its terminal, and back; a link to a terminal; danger first. */
async function ways(page) {
  const found = [];
  await go(page, "#/find");
  await page.locator("#words").fill("STB mb6");
  const first = page.locator("#hits > li").first();
  await first.tap();
  await page.locator("[data-mark].here").waitFor();
  if ((await page.evaluate(() => location.hash)) !== "#merrowby-mb6/STB") found.push("a touched hit did not open its terminal");
  if (!(await page.locator("[data-mark=STB].here").isVisible())) found.push("the terminal is not shown");
  await page.goBack();
  if ((await page.locator("#words").inputValue()) !== "STB mb6") found.push("going back lost the question");
  const order = await page.evaluate(() => {
    const of = (selector) => [...document.querySelectorAll(`#hits > li ${selector}`)][0];
    return of(".danger").compareDocumentPosition(of(".text")) & Node.DOCUMENT_POSITION_FOLLOWING;
  });
  if (!order) found.push("danger does not stand first in a hit");
  await go(page, "#merrowby-mb6");
  const cautions = await page.evaluate(() => document.querySelector("#view > h1").nextElementSibling.className);
  if (cautions !== "danger") found.push("a card does not begin with its cautions");
  await go(page, "#no-such-card");
  if (!(await page.locator("#view").textContent()).includes("no card")) found.push("a card that is not there is not said");
  return found;
}
