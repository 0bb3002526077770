// Search as `wirelore find` does it: the ways to find a fact are merged, and what is found is weighed (src/search/ways.rs, stages.rs).
function makeSearch(index) {
  const words = makeWords(index);
  const { weights: W } = index;
  const { cards, facts, has, list, each, own, stem, key, basesOf, printed, nameKey, pieces, compact, others, kind } = words;
  const { ask, fuseNumber, numbered } = makeReader(words);
  // How many words a text counts as.
  const counted = (text) => Math.min(Math.max(text.split(/\p{White_Space}+/u).filter(Boolean).length, 1), 8);

  // The ways to find one thing, the best of them for each fact (src/search/ways.rs). `any`: whether there is a way.
  class Ways {
    constructor(factor, alone) {
      Object.assign(this, { factor, alone, any: false, found: [], score: new Float32Array(facts) });
    }
    best(fact, score) {
      const before = this.score[fact];
      if (before >= score) return;
      if (before === 0) this.found.push(fact);
      this.score[fact] = score;
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
      const said = pieces(text).map((piece) => piece.forms[0]);
      const count = counted(text);
      if (said.every((word) => has(field, word))) {
        if (said.length === 1 && text.toLowerCase() !== said[0]) this.word(field, text.toLowerCase(), score + W.asTyped);
        if (said.length === 1) this.word(field, said[0], score);
        if (2 > said.length) return;
        this.any = true;
        // Where the program looked for the words one behind the other, it knows; else they need only all be there.
        const at = own(index.phrases[field] ?? {}, said.join(" "));
        const found = at !== undefined ? list(at) : words.isSaid.has(said.join(" ")) ? [] : common(field, said);
        for (const fact of found) this.best(fact, score * this.factor);
        this.word(field, nameKey(text), score / count);
      } else this.word(field, stem(nameKey(text)), score / count);
    }
    text(text, isName) {
      const { base } = key(text);
      const count = counted(text);
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
    /** Takes what another found: as it is, or summed up with what more ways found, which must all have it. */
    merge(other, ...more) {
      this.any = true;
      for (const fact of other.found) {
        if (more.every((ways) => ways.score[fact] > 0)) this.best(fact, more.reduce((sum, ways) => sum + ways.score[fact], other.score[fact]));
      }
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
    if (thing.texts.length === 0 && side.any) signed.merge(side);
    if (thing.texts.length === 0 || !plain.any) return signed;
    if (side.any) signed.merge(plain, side);
    if (!thing.must) signed.merge(plain);
    return signed;
  }
  // Several words, each found in its own way in one fact.
  function wordByWord(plain, words, factor) {
    const all = words.map((word) => {
      const ways = new Ways(factor, false);
      ways.text(word, has("of", nameKey(word)));
      return ways;
    });
    if (all.every((ways) => ways.any)) plain.merge(...all);
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
    const candidates = new Set(things.flatMap((ways) => ways.found));
    for (const opposite of side ? [0, 1] : [0]) {
      for (const least of new Set([things.length, Math.ceil(things.length / 2), 1])) {
        const found = staged({ things, extras, least, allowed, other, opposite, candidates });
        if (found.length === 0) continue;
        if (out.hits.length === 0) out.part = least !== things.length;
        out.hits.push(...found.slice(0, limit - out.hits.length).map((fact) => ({ fact, opposite: opposite === 1 })));
        break;
      }
    }
    return out;
  }
  // The facts of one stage, best first; equal ones in their order.
  function staged({ things, extras, least, allowed, other, opposite, candidates }) {
    const more = least === things.length ? 0 : W.oneMore;
    const found = [];
    for (const fact of candidates) {
      if (other[fact] !== opposite || (allowed && !allowed[fact])) continue;
      let [count, score] = [0, 0];
      for (const ways of things) {
        if (ways.score[fact] === 0) continue;
        count += 1;
        score += ways.score[fact] + more;
      }
      if (least > count) continue;
      for (const ways of extras) score += ways.score[fact];
      found.push(fact - Math.round(score * 64) * facts);
    }
    return [...Float64Array.from(found).sort()].map((rank) => ((rank % facts) + facts) % facts);
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
  return { answer, cards };
}
