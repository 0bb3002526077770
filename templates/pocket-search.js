// Search as `wirelore find` does it: what is found is merged and weighed (src/search/ways.rs, stages.rs).
function makeSearch(habits, data) {
  const words = makeWords(habits, data);
  const { starts, sayingsOf, ways, has, each, stem, key, printed, nameKey, pieces } = words;
  const ask = makeReader(habits, words, data.spelled);
  const [W, TEXTS, facts] = [habits.weights, ["told", "does", "extra", "context"], starts.at(-1)];

  // The ways to find one thing, the best of them for each fact. `any`: whether there is a way, whatever it finds.
  class Ways {
    constructor(factor = 1) {
      Object.assign(this, { factor, any: false, found: [], score: new Float32Array(facts) });
    }
    best(fact, score) {
      if (this.score[fact] === 0) this.found.push(fact);
      this.score[fact] = Math.max(this.score[fact], score);
    }
    /** Takes what stands under a key, in these places; `count` is how many words it counts as. */
    take(name, { count = 1, plus = 0, places, when = {} } = {}) {
      for (const way of ways(name)) {
        if ((places && !places.includes(way.place)) || (way.when && !when[way.when])) continue;
        this.any = true;
        const score = Math.round(W.steps * this.factor * (way.score * (way.counted ? count : 1) + way.plus + plus));
        each(way, (fact) => this.best(fact, score));
      }
      return this;
    }
    /** Takes every way to find a text that has no sign: as a mark, a name, a word, and what rings put in its place. */
    text(text, { alone, name }) {
      const [{ base }, forms] = [key(text), pieces(text)];
      // T is a mark, and how slow a fuse is: a mark of a letter or two is no word.
      const isMark = 2 >= [...base].length && !/\d/.test(base) && has(`b${base}`, "base");
      const when = { alone, name, word: !isMark };
      const count = Math.min(Math.max(text.split(SPACE).filter(Boolean).length, 1), 8);
      const said = forms.length === 1 ? `w${forms[0]}` : `f${forms.join(" ")}`;
      const keys = [`p${printed(text)}`, `b${base}`, `n${nameKey(text)}`, `c${forms.join("")}`, said];
      if (text.includes(" ")) keys.push(`g${forms.join(" ")}`);
      for (const one of keys) this.take(one, { count, when });
      const [typed, inOne] = [text.toLowerCase(), stem(nameKey(text))];
      if (forms.length !== 1) return this.take(`w${inOne}`, { when, places: TEXTS });
      return typed === forms[0] ? this : this.take(`w${typed}`, { count, when, plus: W.asTyped, places: TEXTS });
    }
    /** Takes what all of these found, summed up. */
    merge(all) {
      if (!all.every((one) => one.any)) return;
      this.any = true;
      const shared = all[0].found.filter((fact) => all.every((one) => one.score[fact] > 0));
      for (const fact of shared) this.best(fact, all.reduce((sum, one) => sum + one.score[fact], 0));
    }
  }

  function find(thing, alone) {
    const plain = new Ways(thing.slip ? W.slip : 1);
    for (const text of thing.texts) plain.text(text, { alone, name: thing.name && thing.sign === "" });
    // Several words, each found in its own way in one fact.
    const named = (word) => ({ name: has(`n${nameKey(word)}`, "of") });
    const apart = thing.words.map((word) => new Ways(plain.factor).text(word, named(word)));
    if (apart.length > 1) plain.merge(apart);
    if (thing.sign === "") return plain;
    const signed = new Ways(plain.factor);
    const side = new Ways().take(`${thing.must ? "e" : "d"}${thing.sign}`);
    for (const text of thing.texts.length > 0 ? thing.texts : [""]) {
      const [whole, typed] = [(text && key(text).base) + thing.sign, key(thing.typed)];
      signed.take(`p${printed(typed.base + typed.sign === whole ? thing.typed : text + thing.sign)}`, { plus: W.side });
      signed.take(`s${whole}`);
    }
    signed.merge(thing.texts.length === 0 ? [side] : [plain, side]);
    if (thing.texts.length > 0 && !thing.must) signed.merge([plain]);
    return signed;
  }

  /** The first hits; what was read as what, what is not known, the side asked for, whether no fact has all of it. */
  function answer(question, limit, cardNames = []) {
    const { names, things: asked, readAs } = ask(question, cardNames);
    const signs = asked.map((thing) => thing.sign).filter(Boolean);
    const side = signs.every((sign) => sign === signs[0]) ? (signs[0] ?? "") : "";
    const strong = asked.filter((thing) => !thing.weak);
    const all = asked.map((thing) => find(thing, strong.length === 1));
    const [things, extras] = [false, true].map((weak) => all.filter((one, at) => one.any && !!asked[at].weak === weak));
    // Nothing but names: the cards themselves, then what is to beware of, then notes.
    const named = (found, name) => found.take(`n${name}`, { when: { alone: true } });
    if (things.length === 0 && names.length > 0) things.push(["*", ...names].reduce(named, new Ways()));
    const missing = strong.filter((thing) => !all[asked.indexOf(thing)].any).map((thing) => thing.typed);
    const out = { hits: [], readAs, missing, side, part: false };
    // How many of the things each fact has, and which facts are on the other side.
    const [met, other, candidates] = [new Uint8Array(facts), new Uint8Array(facts), []];
    if (side) for (const way of ways(`d${side === "+" ? "-" : "+"}`)) each(way, (fact) => (other[fact] = 1));
    const isAllowed = allowedBy(new Set(names));
    for (const fact of things.flatMap((one) => one.found)) if (1 > met[fact]++ && isAllowed(fact)) candidates.push(fact);
    // Those on the side asked for before those on the other; those with all that is asked, or failing any the most.
    for (const opposite of side ? [0, 1] : [0]) {
      const here = candidates.filter((fact) => other[fact] === opposite);
      for (const least of new Set([things.length, Math.ceil(things.length / 2), 1])) {
        const found = ranked(here, met, { things, extras, least, limit: limit - out.hits.length });
        if (out.hits.length === 0) out.part = found.length > 0 && least !== things.length;
        out.hits.push(...found.map((fact) => ({ fact, opposite: opposite === 1 })));
        if (found.length > 0) break;
      }
    }
    // Where no fact has all, a mark that is also a card's name is taken as that name.
    const both = strong.filter(({ name, sign }) => name && !sign).map(({ name }) => name);
    const again = out.part && both.length > 0 && strong.length > both.length ? answer(question, limit, both) : out;
    return again.hits.length > 0 ? again : out;
  }
  // The first of the facts that have so many of the things, best first; equal ones in their order.
  function ranked(candidates, met, { things, extras, least, limit }) {
    const more = least === things.length ? 0 : W.oneMore * W.steps;
    const scores = [...things, ...extras].map((one) => one.score);
    const total = (fact) => scores.reduce((sum, score) => sum + score[fact], met[fact] * more);
    const found = candidates.filter((fact) => met[fact] >= least);
    const ranks = Float64Array.from(found, (fact) => fact - total(fact) * facts).sort();
    return Array.from(ranks.subarray(0, limit), (rank) => ((rank % facts) + facts) % facts);
  }
  // `Merrowby MB6` is one card; `T5 T9` are two.
  function allowedBy(names) {
    const counts = new Uint8Array(facts);
    const count = (way) => way.place === "of" && each(way, (fact) => (counts[fact] += 1));
    for (const name of names) ways(`n${name}`).forEach(count);
    const least = counts.includes(names.size) ? names.size : 1;
    return (fact) => counts[fact] >= least;
  }
  return { answer, starts, sayingsOf };
}
