// What a question asks for: words, each as it is read, then what belongs together (src/search/ask). `words` is from makeWords.
function makeReader(words) {
  const { has, key, printed, nameKey, oneDash, pieces, compact, others, kind, fillers, weak, spelled, ringWords, isRing, said: saidBy } = words;
  function token(typed) {
    const trimmed = typed.replace(/^[^\p{Alphabetic}\p{N}+\-\u2010-\u2015\u2212\ufe58\ufe63\uff0d]+|[^\p{Alphabetic}\p{N}+\-\u2010-\u2015\u2212\ufe58\ufe63\uff0d]+$/gu, "") || typed;
    const short = printed(trimmed);
    const said = saidBy(short);
    const text = said ?? (/[+-]ve$/.test(short) ? oneDash(trimmed).slice(0, -2) : oneDash(trimmed));
    const it = { typed: trimmed, texts: [text], said, slip: false, likeMark: /[\p{Lu}\p{N}]/u.test(typed) };
    if (said || isKnown(text)) return it;
    const meant = slips(nameKey(typed));
    return meant.length > 0 ? { ...it, texts: meant, slip: true } : it;
  }
  function isKnown(text) {
    const word = nameKey(text);
    const forms = pieces(text).flatMap((piece) => piece.forms);
    return fillers.has(word) || weak.has(word) || kind(word) !== undefined || isRing(compact(text)) ||
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
    if (plain && (has("of", nameKey(text)) || has("name", nameKey(text)) || isRing(compact(text)) || kind(text))) return true;
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
    const all = question.split(/\p{White_Space}+/u).filter((word) => word && 200 >= new TextEncoder().encode(word).length);
    const tokens = all.slice(0, 48).map(token);
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
  return { ask, fuseNumber, numbered };
}
