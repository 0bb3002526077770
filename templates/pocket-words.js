// The words of the index, and how words and marks are written (src/search/text.rs and mark.rs). What is found under
// which key was worked out by the program (src/pocket/keys.rs); here it is looked up.
const SPACE = /\p{White_Space}+/u;
const DASHES = /[\u2010-\u2015\u2212\ufe58\ufe63\uff0d]/gu;
// A class of letters takes long to make, so there is this one.
const RUNS = /[\p{Alphabetic}\p{N}.]+/gu;
function makeWords({ starts, ways: WAYS, units }, { lines, lists, places, cards }) {
  const kept = (work) => {
    const made = new Map();
    return (of) => (made.has(of) ? made.get(of) : made.set(of, work(of)).get(of));
  };
  // What stands under a key. The lines are sorted, so half of those that are left falls out at each step.
  const line = kept((key) => {
    const head = `${key.replaceAll("<", "&lt;")}\t`;
    let [low, high] = [0, lines.length];
    while (high > low) {
      const start = lines.lastIndexOf("\n", ((low + high) >> 1) - 1) + 1;
      const end = lines.indexOf("\n", start);
      const own = lines.slice(start, start + head.length);
      if (own === head) return lines.slice(start + head.length, end).split(" ");
      if (own > head) high = start;
      else low = end + 1;
    }
    return [];
  });
  // The same as ways to find facts: each a sign of `WAYS` and where its list begins. A full stop is no way.
  const ways = (key) => line(key).flatMap((one) => (one[0] in WAYS ? { ...WAYS[one[0]], at: one.slice(1) } : []));
  /** Whether a key is there, or something of these places under it. */
  const has = (key, ...places) => line(key).some((one) => !places.length || places.includes(WAYS[one[0]]?.place));

  // Numbers as text: five bits to a sign, lowest first, the sixth where more follow (src/pocket/postings.rs).
  const SIGNS = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
  const bitsOf = new Uint8Array(128);
  [...SIGNS].forEach((sign, at) => (bitsOf[sign.charCodeAt(0)] = at));
  function numbers(text) {
    const out = [];
    let [number, times] = [0, 1];
    for (let at = 0; text.length > at; at += 1) {
      const bits = bitsOf[text.charCodeAt(at)];
      number += (bits & 31) * times;
      times *= 32;
      if (bits > 31) continue;
      out.push(number);
      [number, times] = [0, 1];
    }
    return out;
  }
  const rising = (text, last = -1) => numbers(text).map((gap) => (last += gap + 1));
  const list = kept((at) => rising(lists.slice(parseInt(at, 16), lists.indexOf(".", parseInt(at, 16)))));

  // Where each card's facts begin, what they say, and which facts say the same.
  const sayingsOf = (card) => numbers(JSON.parse(cards[card])[2]);
  const factsOf = kept((saying) => rising(places(saying)));
  const factsIn = (card) => Array.from({ length: starts[card + 1] - starts[card] }, (_, at) => starts[card] + at);
  /** Does something for every fact of a way: all those of its cards, or those that say it. */
  const factsOfAny = (place) => (place === "of" || place === "context" ? factsIn : factsOf);
  const each = ({ place, at }, work) => list(at).forEach((one) => factsOfAny(place)(one).forEach(work));

  // The form of a word. Under its beginning stands how the word goes on, and how its form does.
  const stem = kept((word) => {
    for (let cut = /^[a-z]{4,}$/.test(word) ? word.length : 0; cut > 0; cut -= 1) {
      const rest = `${word.slice(cut)}=`;
      const found = line(`t${word.slice(0, cut)}`).find((one) => one.startsWith(rest));
      if (found !== undefined) return word.slice(0, cut) + found.slice(rest.length);
    }
    return word;
  });
  const printed = (text) => text.toLowerCase().replace(DASHES, "-").replace(/[\p{White_Space}\p{Cc}]/gu, "");
  const letters = (text) => (text.match(RUNS) ?? []).join("").replaceAll(".", "");
  const nameKey = (text) => letters(printed(text));
  /** A mark without its sign, noughts before a number left out and O as 0; and its sign. */
  function key(mark) {
    const text = printed(mark).replace(/(?<=[+-])ve$/, "");
    const [sign] = /[+-]$/.exec(text) ?? /^[+-]/.exec(text) ?? [""];
    const base = letters(text).replace(/(?<=[^\d])0+(?=\d)/gu, "").replaceAll("o", "0");
    return { base: base === "" && sign === "" ? text : base, sign };
  }
  /** The words of a text, each in its form; a number and its unit are one. */
  function pieces(text) {
    const out = [];
    for (const raw of text.split(SPACE)) {
      const words = (raw.replace(/['\u2019]s\b|(?<!\d)\.|\.(?!\d)/gi, " ").match(RUNS) ?? []).map(printed);
      if (units.includes(words[0]) && /^\d[\d.]*$/.test(out.at(-1))) out.push(out.pop() + words.shift());
      out.push(...words);
    }
    return out.map(stem);
  }
  return { starts, sayingsOf, ways, has, each, stem, key, printed, nameKey, pieces };
}
