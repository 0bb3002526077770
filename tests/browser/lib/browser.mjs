// The browser, and what it complains of while a page is open.
import { chromium } from "playwright-core";

/** Debian's chromium; another by WIRELORE_CHROMIUM. */
const PROGRAM = process.env.WIRELORE_CHROMIUM ?? "/usr/bin/chromium";
const ARGS = [
  "--no-sandbox",
  "--disable-gpu",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

/** A browser without a profile. */
export function launch() {
  return chromium.launch({ executablePath: PROGRAM, args: ARGS });
}

/** A browser that keeps what pages store in `folder`. */
export function launchKept(folder) {
  return chromium.launchPersistentContext(folder, { executablePath: PROGRAM, args: ARGS });
}

/**
 * Opens `url` in a page of its own. `complaints` gathers whatever should not be: console messages, errors, dialogs that
 * nobody asked for, requests for anything but the page itself.
 */
export async function open(context, url) {
  const page = await context.newPage();
  const complaints = [];
  page.on("console", (message) => complaints.push(`console: ${message.text()}`));
  page.on("pageerror", (error) => complaints.push(`error: ${error.message}`));
  page.on("request", (request) => {
    if (request.url() !== url) complaints.push(`asked for ${request.url().slice(0, 120)}`);
  });
  page.on("dialog", (dialog) => {
    complaints.push(`dialog: ${dialog.message()}`);
    dialog.dismiss();
  });
  await page.goto(url, { waitUntil: "load" });
  return { page, complaints };
}
