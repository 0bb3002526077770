// Which pages there are, and how they are gone through.
import { existsSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

/** How many pages are looked at side by side. */
const SIDE_BY_SIDE = 2;

/** Every page of a folder of packs or sheets: the index and what is not known first, where they are, then each in the order of its name. */
export function pagesOf(folder, kind) {
  const names = readdirSync(folder, { withFileTypes: true }).filter((entry) => entry.isDirectory()).map((entry) => entry.name).sort();
  const packs = names.flatMap((name) => {
    const files = readdirSync(join(folder, name)).filter((file) => file.endsWith(".html")).sort();
    return files.map((file) => page(`${kind} ${name}/${file}`, join(folder, name, file), file.replace(".html", "")));
  });
  if (packs.length === 0) throw new Error(`${folder}: no pages`);
  const over = ["index", "gaps"].filter((name) => existsSync(join(folder, `${name}.html`)));
  return [...over.map((name) => page(`${kind} ${name}`, join(folder, `${name}.html`), name)), ...packs];
}

function page(name, file, sort) {
  return { name, file, sort, url: pathToFileURL(file).href };
}

/** Does `work` for each page, a few at a time. */
export async function each(pages, work) {
  const waiting = [...pages];
  const worker = async () => {
    for (let page = waiting.shift(); page; page = waiting.shift()) await work(page);
  };
  await Promise.all(Array.from({ length: SIDE_BY_SIDE }, worker));
}
