// A page on paper: A4 and Letter, every sheet counted and looked at.
import { execFileSync } from "node:child_process";
import { join } from "node:path";

const SIZES = { A4: [595, 842], Letter: [612, 792] };
/** What a printer can't reach, in points: 4 mm. */
const EDGE = 11;

/** What an A4 sheet has between its margins, in CSS pixels: 190 mm. */
const SHEET = 718;
/** The height of the line at the foot, with its margin. */
const FOOT = 38;

/** Prints a page on both sizes of paper and reads the prints back. */
export async function paper(tally, page, { name, sort }, scratch) {
  await page.emulateMedia({ media: "print" });
  await page.setViewportSize({ width: SHEET, height: 1000 });
  const wide = await page.evaluate(() => document.documentElement.scrollWidth);
  // A browser makes everything smaller to fit what is too wide.
  tally.check(`${name}: as wide as a sheet`, wide > SHEET ? [`it is ${wide} wide, a sheet ${SHEET}`] : []);
  tally.check(`${name}: tables and greys`, await page.evaluate(onPaper));
  const shown = await page.evaluate(lettersShown);
  for (const [size, [width, height]] of Object.entries(SIZES)) {
    const path = join(scratch, `${name.replace(/\W+/g, "-")}-${size}.pdf`);
    await page.pdf({ path, format: size, preferCSSPageSize: size === "A4" });
    const sheets = read(path);
    const found = sheets.flatMap((sheet, at) => wrongWith(sheet, at + 1, width, height));
    found.push(...lost(shown, sheets));
    if (sort !== "index") found.push(...unnumbered(sheets));
    tally.check(`${name}: ${size}, ${sheets.length} sheets`, found);
  }
}

/** Runs in the page: heads that would not come again, rows that could be split, colours that a grey copy would lose. */
function onPaper() {
  const found = [];
  for (const head of document.querySelectorAll("thead")) {
    if (getComputedStyle(head).display !== "table-header-group") found.push(`${head.innerText.slice(0, 40)}: the head does not come again`);
  }
  for (const row of document.querySelectorAll("tr")) {
    if (getComputedStyle(row).breakInside !== "avoid") found.push(`${row.innerText.slice(0, 40)}: the row may be split`);
  }
  // A drawing shows the colours of cores, each with its code beside it.
  for (const part of document.querySelectorAll("body, body *:not(svg, svg *)")) {
    const style = getComputedStyle(part);
    for (const colour of [style.color, style.backgroundColor, style.borderTopColor]) {
      const [red, green, blue] = colour.match(/[\d.]+/g).map(Number);
      if (red !== green || green !== blue) found.push(`<${part.tagName.toLowerCase()}> is ${colour}`);
    }
  }
  return found;
}

/** Runs in the page: each letter that paper should show, and how often. */
function lettersShown() {
  const letters = {};
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    if (!node.parentElement.checkVisibility()) continue;
    for (const letter of node.data.normalize("NFKC").replace(/[^A-Za-z0-9]/g, "")) letters[letter] = (letters[letter] ?? 0) + 1;
  }
  return letters;
}

/** The sheets of a PDF: size, words with their boxes, how dark it is. */
function read(path) {
  const xml = execFileSync("pdftotext", ["-bbox", path, "-"], { encoding: "utf8", maxBuffer: 1 << 28 });
  return xml.split("<page ").slice(1).map((part) => {
    const [, width, height] = part.match(/width="([\d.]+)" height="([\d.]+)"/).map(Number);
    const words = [...part.matchAll(/<word xMin="(.+?)" yMin="(.+?)" xMax="(.+?)" yMax="(.+?)">(.*?)<\/word>/g)];
    return { width, height, words: words.map(([, ...w]) => ({ box: w.slice(0, 4).map(Number), text: unescape(w[4]) })) };
  });
}

function unescape(text) {
  return text.replaceAll("&lt;", "<").replaceAll("&gt;", ">").replaceAll("&quot;", '"').replaceAll("&amp;", "&").normalize("NFKC");
}

function wrongWith({ width, height, words }, number, wantedWidth, wantedHeight) {
  const found = [];
  if (Math.abs(width - wantedWidth) > 2 || Math.abs(height - wantedHeight) > 2) found.push(`sheet ${number} is ${width} by ${height} points`);
  const above = words.filter((word) => word.box[3] < height - FOOT).length;
  if (above < 5) found.push(`sheet ${number} has ${above} words: blank, or nearly`);
  for (const { box: [left, top, right, bottom], text } of words) {
    const inside = left >= EDGE && top >= EDGE && right <= width - EDGE && bottom <= height - EDGE;
    if (!inside) found.push(`sheet ${number}: "${text.slice(0, 40)}" stands at ${left} to ${right}, ${top} to ${bottom}`);
  }
  return found;
}

/** Letters of the page that are not on paper: what was cut, or printed under something. */
function lost(shown, sheets) {
  const printed = {};
  for (const letter of sheets.flatMap((s) => s.words).map((w) => w.text).join("")) printed[letter] = (printed[letter] ?? 0) + 1;
  const missing = Object.entries(shown).filter(([letter, count]) => (printed[letter] ?? 0) < count);
  return missing.map(([letter, count]) => `"${letter}" stands ${count} times on the page and ${printed[letter] ?? 0} times on paper`);
}

/** Sheets without their number. */
function unnumbered(sheets) {
  return sheets.flatMap(({ words }, at) => {
    const text = words.map((word) => word.text).join(" ");
    return text.includes(`${at + 1} of ${sheets.length}`) ? [] : [`sheet ${at + 1} does not say "${at + 1} of ${sheets.length}"`];
  });
}
