// Counts checks, says what each failed one found, and ends the run with a line that a machine can read.

/** How many findings of one failed check are printed. */
const SHOWN = 8;

export class Tally {
  constructor() {
    this.passed = 0;
    this.failed = 0;
    this.begun = Date.now();
  }

  /** A check passes when it found nothing wrong. */
  check(name, found) {
    if (found.length === 0) {
      this.passed += 1;
      return;
    }
    this.failed += 1;
    console.log(`FAILED ${name}`);
    for (const line of found.slice(0, SHOWN)) console.log(`  ${line}`);
    if (found.length > SHOWN) console.log(`  … and ${found.length - SHOWN} more`);
  }

  /** The last line, and the exit code. A run that checked nothing has failed. */
  close() {
    const seconds = Math.round((Date.now() - this.begun) / 1000);
    if (this.passed + this.failed === 0) this.check("the run", ["no check was made"]);
    console.log(`checks in a browser, ${seconds} s`);
    console.log(`${this.passed} passed, ${this.failed} failed`);
    process.exitCode = this.failed === 0 ? 0 : 1;
  }
}
