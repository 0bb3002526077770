// The words of the index, and how words and marks are written (src/search/text.rs and mark.rs). Which facts each word has, the
// forms of words and the rings were made by the program; here they are looked up. `index` is that data.
function makeWords(index) {
  const { pool, rings } = index;
  const own = (object, key) => (Object.hasOwn(object, key) ? object[key] : undefined);
  const cards = [];
  let facts = 0;
  for (const count of index.cards) {
    cards.push([facts, facts + count]);
    facts += count;
  }
  const units = new Set(index.units);
  const fillers = new Set(index.fillers);
  const weak = new Set(index.weak);
  const spelled = new Set(index.spelled.split(" "));
  // A line is a form, then each of its words: how many letters of the form are left out at its end, and what follows.
  const stems = new Map();
  for (const line of index.stems.split("\n")) {
    const [form, ...words] = line.split(" ");
    for (const word of words) {
      const digits = /^\d+/.exec(word)[0];
      stems.set(form.slice(0, form.length - Number(digits)) + word.slice(digits.length), form);
    }
  }
  const stem = (word) => stems.get(word) ?? word;
  const ringsOf = new Map();
  rings.forEach((ring, at) => {
    for (const [, compact] of ring) if (compact && ringsOf.get(compact)?.at(-1) !== at) ringsOf.set(compact, [...(ringsOf.get(compact) ?? []), at]);
  });
  const ringWords = new Set(rings.flat().map(([word]) => word).filter((word) => /^\p{Alphabetic}*$/u.test(word)));

  // The facts under a word of a field: gaps, five bits to a sign, the sixth where more follow.
  const lists = [];
  const bits = new Uint8Array(128);
  [..."ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_"].forEach((sign, at) => (bits[sign.charCodeAt(0)] = at));
  function list(at) {
    if (lists[at]) return lists[at];
    const text = pool[at];
    const out = [];
    let [gap, shift, last] = [0, 1, -1];
    for (let sign = 0; text.length > sign; sign += 1) {
      const five = bits[text.charCodeAt(sign)];
      gap += (five & 31) * shift;
      shift *= 32;
      if (five > 31) continue;
      last += gap + 1;
      out.push(last);
      gap = 0;
      shift = 1;
    }
    return (lists[at] = out);
  }
  const has = (field, word) => word !== "" && own(index.fields[field] ?? {}, word) !== undefined;
  const isOfCard = (field) => field === "of" || field === "context";
  function each(field, word, work) {
    const at = own(index.fields[field], word);
    if (at === undefined) return;
    for (const n of list(at)) {
      if (!isOfCard(field)) work(n);
      else for (let fact = cards[n][0]; cards[n][1] > fact; fact += 1) work(fact);
    }
  }

  // How words and marks are written, as src/search/text.rs and mark.rs have it.
  const oneDash = (text) => text.replace(/[\u2010-\u2015\u2212\ufe58\ufe63\uff0d]/gu, "-");
  const printed = (text) => oneDash(text.toLowerCase()).replace(/[\p{White_Space}\p{Cc}]/gu, "");
  const letters = (text) => text.replace(/[^\p{Alphabetic}\p{N}]/gu, "");
  const nameKey = (text) => letters(printed(text));
  const isNumber = (text) => /^\d[\d.]*$/.test(text);
  function key(mark) {
    const text = printed(mark);
    const end = /^(.*?)(\+ve|-ve|\+|-)$/su.exec(text) ?? /^()([+-])/u.exec(text);
    const rest = !end ? text : end[1] || !/^[+-]/u.test(text) || end[0] === text ? end[1] : text.slice(1);
    const base = letters(rest).replace(/(?<=[^\d])0+(?=\d)/gu, "").replaceAll("o", "0");
    const sign = end ? end[2][0] : "";
    return base === "" && sign === "" ? { base: text, sign } : { base, sign };
  }
  const basesOf = (base) => [base, ...(/^\d+v$/.test(base) ? [base.slice(0, -1)] : [])];
  function pieces(text) {
    const out = [];
    for (const raw of text.split(/\p{White_Space}+/u).filter(Boolean)) {
      const first = out.length;
      for (const { 0: part, index: at } of raw.matchAll(/(?:[\p{Alphabetic}\p{N}]|(?<=\d)\.(?=\d))+/gu)) {
        const word = printed(part);
        if (word === "s" && /['\u2019]$/u.test(raw.slice(0, at))) continue;
        const forms = [stem(word)];
        if (forms[0] !== word) forms.push(word);
        const unit = /^(\d[\d.]*)(\D.*)$/u.exec(word);
        if (unit && units.has(unit[2])) forms.push(unit[1]);
        out.push({ word, forms });
      }
      const one = out.length === first + 1;
      const whole = key(raw.replace(/^[^\p{Alphabetic}\p{N}+\-\u2010-\u2015\u2212]+|[^\p{Alphabetic}\p{N}+\-\u2010-\u2015\u2212]+$/gu, ""));
      if (out[first] && !one) out[first].forms.push(nameKey(raw));
      if (out[first] && whole.sign) out[first].forms.push(whole.base + whole.sign);
      const before = out[first - 1];
      if (before && out[first] && units.has(out[first].word) && isNumber(before.word)) {
        before.word += out[first].word;
        before.forms.unshift(before.word);
        out.splice(first, 1);
      }
    }
    return out;
  }
  const compact = (text) => pieces(text).map((piece) => piece.forms[0]).join("");
  const SAID = new Map([["+", "+"], ["+ve", "+"], ["plus", "+"], ["positive", "+"], ["pos", "+"], ["-", "-"], ["-ve", "-"], ["minus", "-"], ["negative", "-"], ["neg", "-"]]);
  const others = (words) => (ringsOf.get(words) ?? []).flatMap((at) => rings[at]).filter(([word, one]) => !SAID.has(word) && one !== words).map(([word]) => word);
  const kinds = Object.entries(index.kinds);
  const kind = (words) => kinds.find(([name]) => name === words || stem(name) === stem(words))?.[1];
  return {
    index, cards, facts, has, list, each, own, stem, key, basesOf, printed, nameKey, oneDash, pieces, compact, others, kind, fillers, weak, spelled,
    ringWords, isRing: (words) => ringsOf.has(words), said: (word) => SAID.get(word), isSaid: new Set(index.wanted),
  };
}
