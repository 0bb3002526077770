// The words of the index, and how words and marks are written (src/search/text.rs and mark.rs). What is found under
// which key was worked out by the program (src/pocket/keys.rs); here it is looked up.
const SPACE = /\p{White_Space}+/u;
function makeWords(habits, { lines, lists, places, cards }) {
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
  // The same as ways to find facts: each a sign of `habits.ways` and where its list begins. A full stop is no way.
  const found = (key) => line(key).map((one) => ({ ...habits.ways[one[0]], at: one.slice(1) }));
  const ways = (key) => found(key).filter((way) => way.place);
  /** Whether a key is there, or something of these places under it. */
  const has = (key, ...places) => found(key).some((way) => places.length === 0 || places.includes(way.place));

  // Numbers as text: five bits to a sign, lowest first, the sixth where more follow (src/pocket/postings.rs).
  const SIGNS = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
  const bits = Object.fromEntries([...SIGNS].map((sign, at) => [sign, at]));
  function numbers(text) {
    const out = [];
    let [number, times] = [0, 1];
    for (const sign of text) {
      number += (bits[sign] & 31) * times;
      times *= 32;
      if (bits[sign] > 31) continue;
      out.push(number);
      [number, times] = [0, 1];
    }
    return out;
  }
  function rising(text) {
    let last = -1;
    return numbers(text).map((gap) => (last += gap + 1));
  }
  const list = kept((at) => rising(lists.slice(parseInt(at, 16), lists.indexOf(".", parseInt(at, 16)))));

  // Where each card's facts begin, what they say, and which facts say the same.
  const starts = [0];
  for (const count of habits.counts) starts.push(starts.at(-1) + count);
  const sayingsOf = (card) => numbers(JSON.parse(cards[card])[2]);
  const same = places.split(".");
  const factsOf = kept((saying) => rising(same[saying]));
  /** Does something for every fact of a way: all those of its cards, or those that say it. */
  function each({ place, at }, work) {
    if (place !== "of" && place !== "context") return list(at).forEach((saying) => factsOf(saying).forEach(work));
    for (const card of list(at)) for (let fact = starts[card]; starts[card + 1] > fact; fact += 1) work(fact);
    return undefined;
  }

  // The form of a word. Under its beginning stands how the word goes on, and how its form does.
  const stem = kept((word) => {
    for (let cut = /^[a-z]{4,}$/.test(word) ? word.length : 0; cut > 0; cut -= 1) {
      const rest = `${word.slice(cut)}=`;
      const found = line(`t${word.slice(0, cut)}`).find((one) => one.startsWith(rest));
      if (found !== undefined) return word.slice(0, cut) + found.slice(rest.length);
    }
    return word;
  });
  const oneDash = (text) => text.replace(/[\u2010-\u2015\u2212\ufe58\ufe63\uff0d]/gu, "-");
  const printed = (text) => oneDash(text.toLowerCase()).replace(/[\p{White_Space}\p{Cc}]/gu, "");
  const letters = (text) => text.replace(/[^\p{Alphabetic}\p{N}]/gu, "");
  const nameKey = (text) => letters(printed(text));
  /** A mark without its sign, noughts before a number left out and O as 0; and its sign. */
  function key(mark) {
    const text = printed(mark);
    const [, before, end] = /^(.*?)(\+ve|-ve|\+|-)$/su.exec(text) ?? [];
    const [, first, after] = end ? [] : /^([+-])(.*)$/su.exec(text) ?? [];
    const base = letters(before ?? after ?? text).replace(/(?<=[^\d])0+(?=\d)/gu, "").replaceAll("o", "0");
    const sign = (end ?? first ?? "").slice(0, 1);
    return { base: base === "" && sign === "" ? text : base, sign };
  }
  /** The words of a text, each in its form; a number and its unit are one. */
  function pieces(text) {
    const out = [];
    for (const raw of text.split(SPACE)) {
      const parts = [...raw.matchAll(/(?:[\p{Alphabetic}\p{N}]|(?<=\d)\.(?=\d))+/gu)];
      const isGenitive = ({ 0: part, index }) => /^s$/i.test(part) && /['\u2019]$/u.test(raw.slice(0, index));
      const words = parts.filter((part) => !isGenitive(part)).map(([part]) => printed(part));
      if (habits.units.includes(words[0]) && /^\d[\d.]*$/.test(out.at(-1))) out.push(out.pop() + words.shift());
      out.push(...words);
    }
    return out.map(stem);
  }
  return { starts, sayingsOf, ways, has, each, stem, key, printed, nameKey, oneDash, pieces };
}
