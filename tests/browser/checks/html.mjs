// The Nu HTML checker: no error on any page.
import { execFile } from "node:child_process";
import vnu from "vnu-jar";

/** Checks all pages in one run: starting Java takes longer than reading them. */
export async function html(tally, pages) {
  const found = await messages(pages.map((page) => page.file));
  for (const page of pages) {
    const own = found.filter((message) => message.url === page.url);
    tally.check(`${page.name}: HTML`, own.map((message) => `line ${message.lastLine}: ${message.message}`));
  }
}

/** Every error that the checker reports. */
function messages(files) {
  const args = ["-Xss4m", "-jar", vnu, "--format", "json", "--errors-only", "--exit-zero-always", ...files];
  return new Promise((done, failed) => {
    execFile("java", args, { maxBuffer: 1 << 28 }, (error, _, said) => {
      if (error) failed(error);
      else done(JSON.parse(said).messages.map((message) => ({ ...message, url: message.url.replace(/^file:\/*/, "file:///") })));
    });
  });
}
