// Search as `wirelore find` does it. The words of each fact, their forms and the rings of words were made by the program;
// here they are looked up, the ways to find a fact are merged, and what is found is weighed. `index` is that data.
function makeSearch(index) {
  const { weights: W, pool, rings } = index;
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
  const signs = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
  const bits = new Map([...signs].map((sign, at) => [sign, at]));
  function list(at) {
    if (lists[at]) return lists[at];
    const out = [];
    let [gap, shift, last] = [0, 0, -1];
    for (const sign of pool[at]) {
      const five = bits.get(sign);
      gap += (five & 31) * 2 ** shift;
      shift += 5;
      if (five > 31) continue;
      out.push((last += gap + 1));
      [gap, shift] = [0, 0];
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

  // What a question asks for: words, each as it is read, then what belongs together (src/search/ask).
  function token(typed) {
    const trimmed = typed.replace(/^[^\p{Alphabetic}\p{N}+\-\u2010-\u2015\u2212\ufe58\ufe63\uff0d]+|[^\p{Alphabetic}\p{N}+\-\u2010-\u2015\u2212\ufe58\ufe63\uff0d]+$/gu, "") || typed;
    const short = printed(trimmed);
    const said = SAID.get(short);
    const text = said ?? (/[+-]ve$/.test(short) ? oneDash(trimmed).slice(0, -2) : oneDash(trimmed));
    const it = { typed: trimmed, texts: [text], said, slip: false, likeMark: /[\p{Lu}\p{N}]/u.test(typed) };
    if (said || isKnown(text)) return it;
    const meant = slips(nameKey(typed));
    return meant.length > 0 ? { ...it, texts: meant, slip: true } : it;
  }
  function isKnown(text) {
    const word = nameKey(text);
    const forms = pieces(text).flatMap((piece) => piece.forms);
    return fillers.has(word) || weak.has(word) || kind(word) !== undefined || ringsOf.has(compact(text)) ||
      spelled.has(word) || has("of", word) || has("name", word) || has("base", key(text).base) ||
      ["does", "told", "extra", "context"].some((field) => forms.some((form) => has(field, form)));
  }
  // The known words one slip of the finger away: two letters swapped, one left out, one too many, one wrong.
  function slips(word) {
    const chars = [...word];
    if (chars.length < 4 || chars.length > 24 || !/^\p{Alphabetic}+$/u.test(word)) return [];
    const near = new Set();
    const alphabet = new Set([..."abcdefghijklmnopqrstuvwxyz", ...chars]);
    for (let at = 0; chars.length >= at; at += 1) {
      const [head, tail] = [chars.slice(0, at).join(""), chars.slice(at)];
      const rest = tail.slice(1).join("");
      near.add(head + rest);
      if (tail.length > 1) near.add(head + tail[1] + tail[0] + tail.slice(2).join(""));
      for (const letter of alphabet) near.add(head + letter + tail.join("")).add(head + letter + rest);
    }
    near.delete(word);
    return [...near].filter((word) => [...word].length >= 4 && (ringWords.has(word) || spelled.has(word))).sort();
  }
  const fuseNumber = (text) => {
    const [, first, number] = /^(\S*) (\d+)$/.exec(text) ?? [];
    return number && kind(first.toLowerCase()) === "fuse" ? number : undefined;
  };
  const numbered = (text) => {
    const [, word, number] = /^(\S*) (\d+)$/.exec(text) ?? [];
    return number ? others(compact(word)).filter((other) => /^\p{Alphabetic}*$/u.test(other)).map((other) => ((k) => k.base + k.sign)(key(other + number))) : [];
  };
  const knowsMark = ({ base, sign }) => has("mark", base + sign) || (sign === "" && has("base", base));
  const joined = (window) => window.map((it) => it.texts[0] ?? "").join(" ");
  function belongTogether(window) {
    const text = joined(window);
    const plain = window.every((it) => !it.said);
    if (plain && (has("of", nameKey(text)) || has("name", nameKey(text)) || ringsOf.has(compact(text)) || kind(text))) return true;
    if (numbered(text).some((mark) => has("mark", mark))) return true;
    const parts = pieces(text);
    if (plain && parts.length === 1 && (has("does", parts[0].word) || has("told", parts[0].word))) return true;
    const tail = window.slice(1);
    const k = key(text);
    const count = window.filter((it) => it.said).length;
    const inner = window.some((it) => !it.said && key(it.texts[0]).sign);
    const isTail = (it) => it.said || [...it.texts[0]].length <= 2 || /^\d*$/.test(it.texts[0]);
    if (!tail.every(isTail) || count > 1 || (count === 1 && inner) || k.base === "") return false;
    const small = tail.some((it) => /\d/.test(it.texts[0])) || window.every((it) => [...it.texts[0]].length <= 2) || count === 1;
    return fuseNumber(text) !== undefined || (small && knowsMark(k));
  }
  function ask(question) {
    const asked = { names: [], things: [], readAs: [] };
    const words = question.split(/\p{White_Space}+/u).filter((word) => word && 200 >= new TextEncoder().encode(word).length);
    const tokens = words.slice(0, 48).map(token);
    for (const it of tokens) if (it.slip) asked.readAs.push([it.typed, it.texts]);
    for (let at = 0; tokens.length > at; ) {
      let width = Math.min(5, tokens.length - at);
      while (width > 1 && !belongTogether(tokens.slice(at, at + width))) width -= 1;
      take(asked, tokens.slice(at, at + width), 2 >= tokens.length);
      at += width;
    }
    if (asked.names.length === 0 && asked.things.every((thing) => thing.weak)) for (const thing of asked.things) thing.weak = false;
    return asked;
  }
  function take(asked, window, short) {
    const [first, ...more] = window;
    if (first.said && more.length === 0) return saySign(asked, first);
    const text = joined(window);
    const name = nameKey(text);
    const isName = key(text).sign === "" && has("of", name);
    const isMark = knowsMark(key(text));
    const isWord = () => pieces(text).some((piece) => piece.forms.some((form) => has("does", form)));
    if (isName && !isMark && (more.length > 0 || !isWord())) return asked.names.push(name);
    if (more.length === 0 && fillers.has(name) && !(isMark && (first.likeMark || short))) return 0;
    const texts = (more.length === 0 ? first.texts : [text]).map((text) => text.replace(/^[+\- ]+|[+\- ]+$/g, "")).filter(Boolean);
    const apart = window.filter((it) => !it.said && !fillers.has(nameKey(it.texts[0]))).map((it) => it.texts[0]);
    return asked.things.push({
      typed: window.map((it) => it.typed).join(" "), texts, words: more.length === 0 ? [] : apart, sign: key(text).sign,
      must: false, weak: more.length === 0 && weak.has(name), slip: window.some((it) => it.slip), isName,
    });
  }
  function saySign(asked, it) {
    const last = asked.things.at(-1);
    if (!last || last.sign || last.texts.length === 0) {
      return asked.things.push({ typed: it.typed, texts: [], words: [], sign: it.said, must: true, weak: false, slip: false, isName: false });
    }
    const isMark = last.texts.some((text) => [...others(compact(text)), text].some((word) => has("base", key(word).base)));
    last.must = [...it.typed].length !== 1 && !isMark;
    last.sign = it.said;
    last.typed += ` ${it.typed}`;
    return 0;
  }

  // The ways to find one thing, the best of them for each fact (src/search/ways.rs). `any`: whether there is a way.
  class Ways {
    constructor(factor, alone) {
      Object.assign(this, { factor, alone, any: false, score: new Float64Array(facts) });
    }
    best(fact, score) {
      if (this.score[fact] < score) this.score[fact] = score;
    }
    word(field, word, score) {
      if (!has(field, word)) return;
      this.any = true;
      each(field, word, (fact) => this.best(fact, score * this.factor));
    }
    head(text, score) {
      const parts = pieces(text);
      if (parts.length === 1) this.word("head", parts[0].forms[0], score);
    }
    phrase(field, text, score) {
      const words = pieces(text).map((piece) => piece.forms[0]);
      const count = Math.min(Math.max(text.split(/\p{White_Space}+/u).filter(Boolean).length, 1), 8);
      if (words.every((word) => has(field, word))) {
        if (words.length === 1 && text.toLowerCase() !== words[0]) this.word(field, text.toLowerCase(), score + W.asTyped);
        if (words.length === 1) this.word(field, words[0], score);
        if (2 > words.length) return;
        this.any = true;
        // What the program did not look up beforehand is near enough where all its words are.
        const at = own(index.phrases[field] ?? {}, words.join(" "));
        const both = at === undefined ? common(field, words) : list(at);
        for (const fact of both) this.best(fact, score * this.factor);
        this.word(field, nameKey(text), score / count);
      } else this.word(field, stem(nameKey(text)), score / count);
    }
    text(text, isName) {
      const { base } = key(text);
      const count = Math.min(Math.max(text.split(/\p{White_Space}+/u).filter(Boolean).length, 1), 8);
      this.word("printed", printed(text), W.exact);
      this.word("mark", base, W.mark);
      for (const other of basesOf(base)) {
        this.word("base", other, W.base);
        this.word("related", other, W.related);
      }
      if (this.alone) this.word("name", nameKey(text), W.name * count);
      if (isName) this.word("of", nameKey(text), W.of * count);
      if (kind(text.toLowerCase())) this.word("kind", kind(text.toLowerCase()), W.kind * count);
      const number = fuseNumber(text);
      for (const mark of number ? [`f${number}`, `fs${number}`] : []) this.fuse(mark);
      for (const mark of numbered(text)) this.word("mark", mark, 2 * W.ringMark);
      this.phrase("told", text, W.told * count);
      if (!/^\p{Alphabetic}{0,2}$/u.test(base) || !has("base", base)) {
        this.head(text, W.head);
        for (const field of ["does", "extra", "context"]) this.phrase(field, text, W[field] * count);
      }
      for (const other of others(compact(text))) this.ring(other, count);
    }
    ring(other, count) {
      const { base } = key(other);
      this.word("mark", base, W.ringMark);
      this.word("base", base, W.ringBase);
      if (this.alone) this.word("name", nameKey(other), W.ringMark * count);
      this.head(other, W.ringHead);
      for (const [field, score] of [["does", W.ringDoes], ["told", W.ringTold], ["extra", W.ringExtra]]) this.phrase(field, other, score * count);
    }
    fuse(mark) {
      if (!has("mark", mark)) return;
      this.any = true;
      const fuses = new Set();
      each("kind", "fuse", (fact) => fuses.add(fact));
      each("mark", mark, (fact) => fuses.has(fact) && this.best(fact, W.mark + W.kind));
    }
    /** Takes another's facts; those on both sides of a sum only, where both must be. */
    merge(other, add = 0) {
      if (!other.any) return;
      this.any = true;
      for (let fact = 0; facts > fact; fact += 1) if (other.score[fact] > 0) this.best(fact, other.score[fact] + add);
    }
  }
  function common(field, words) {
    const counts = new Map();
    for (const word of new Set(words)) each(field, word, (fact) => counts.set(fact, (counts.get(fact) ?? 0) + 1));
    return [...counts].filter(([, count]) => count === new Set(words).size).map(([fact]) => fact);
  }
  function find(thing, alone) {
    const factor = thing.slip ? W.slip : 1;
    const plain = new Ways(factor, alone);
    for (const text of thing.texts) plain.text(text, thing.isName && thing.sign === "");
    if (thing.words.length > 1) wordByWord(plain, thing.words, factor);
    if (thing.sign === "") return plain;
    const side = new Ways(1, alone);
    side.word("side", thing.sign, W.side);
    if (thing.must) {
      const said = thing.sign === "+" ? "positive" : "negative";
      side.phrase("does", said, W.does);
      side.phrase("told", said, W.told);
    }
    const signed = new Ways(factor, alone);
    for (const text of thing.texts.length > 0 ? thing.texts : [""]) {
      const whole = key(text).base + thing.sign;
      const typed = printed(thing.typed);
      const k = key(typed);
      signed.word("printed", k.base + k.sign === whole ? typed : printed(text + thing.sign), W.exact + W.side);
      for (const [field, score] of [["mark", W.mark], ["related", W.related], ["told", W.told]]) signed.word(field, text === "" && field === "mark" ? thing.sign : whole, score + W.side);
    }
    if (thing.texts.length === 0) signed.merge(side);
    else if (plain.any && (side.any || !thing.must)) {
      signed.any = true;
      for (let fact = 0; facts > fact; fact += 1) {
        const [own, more] = [plain.score[fact], side.score[fact]];
        if (own > 0 && (more > 0 || !thing.must)) signed.best(fact, own + more);
      }
    }
    return signed;
  }
  // Several words, each found in its own way in one fact.
  function wordByWord(plain, words, factor) {
    const all = words.map((word) => {
      const ways = new Ways(factor, false);
      ways.text(word, has("of", nameKey(word)));
      return ways;
    });
    if (!all.every((ways) => ways.any)) return;
    plain.any = true;
    for (let fact = 0; facts > fact; fact += 1) {
      if (all.every((ways) => ways.score[fact] > 0)) plain.best(fact, all.reduce((sum, ways) => sum + ways.score[fact], 0));
    }
  }

  // Facts on the side asked for before those on the other; those with all that is asked, or failing any the most of it.
  function answer(question, limit) {
    const asked = ask(question);
    const signs = asked.things.map((thing) => thing.sign).filter(Boolean);
    const side = signs.length > 0 && signs.every((sign) => sign === signs[0]) ? signs[0] : "";
    const out = { hits: [], readAs: asked.readAs, missing: [], side, part: false };
    const [things, extras] = [[], []];
    const alone = asked.things.filter((thing) => !thing.weak).length === 1;
    for (const thing of asked.things) {
      const ways = find(thing, alone);
      if (ways.any) (thing.weak ? extras : things).push(ways);
      else if (!thing.weak) out.missing.push(thing.typed);
    }
    if (things.length === 0 && asked.names.length > 0) {
      const ways = new Ways(1, false);
      for (const name of asked.names) ways.word("name", name, W.name);
      ways.word("kind", "caution", W.told);
      ways.word("kind", "note", W.extra);
      ways.any = true;
      things.push(ways);
    }
    if (things.length === 0) return out;
    const allowed = allowedBy(asked.names);
    const other = new Uint8Array(facts);
    if (side) each("side", side === "+" ? "-" : "+", (fact) => (other[fact] = 1));
    for (const opposite of side ? [0, 1] : [0]) {
      for (const least of new Set([things.length, Math.ceil(things.length / 2), 1])) {
        const all = least === things.length;
        const found = [];
        for (let fact = 0; facts > fact; fact += 1) {
          if (other[fact] !== opposite || (allowed && !allowed[fact])) continue;
          let [count, score] = [0, 0];
          for (const ways of things) {
            if (ways.score[fact] === 0) continue;
            count += 1;
            score += ways.score[fact] + (all ? 0 : W.oneMore);
          }
          if (least > count) continue;
          for (const ways of extras) score += ways.score[fact];
          found.push([Math.round(score * 64), fact]);
        }
        if (found.length === 0) continue;
        found.sort((a, b) => b[0] - a[0] || a[1] - b[1]);
        if (out.hits.length === 0) out.part = !all;
        out.hits.push(...found.slice(0, limit - out.hits.length).map(([, fact]) => ({ fact, opposite: opposite === 1 })));
        break;
      }
    }
    return out;
  }
  // `Merrowby MB6` is one card; `T5 T9` are two.
  function allowedBy(names) {
    if (names.length === 0) return null;
    const counts = new Uint8Array(facts);
    for (const name of new Set(names)) each("of", name, (fact) => (counts[fact] += 1));
    const most = new Set(names).size;
    const least = counts.includes(most) ? most : 1;
    return counts.map((count) => (count >= least ? 1 : 0));
  }
  return { answer, cards, facts };
}
