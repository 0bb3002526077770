// What a question asks for: words, each as it is read, then what belongs together (src/search/ask).
function makeReader(habits, words, spelled) {
  const { has, key, printed, nameKey, oneDash, pieces } = words;
  const [fillers, weak, known] = [habits.fillers, habits.weak, spelled].map((list) => new Set(list));
  const SAID = { "+": ["+", "+ve", "plus", "positive", "pos"], "-": ["-", "-ve", "minus", "negative", "neg"] };
  const OUTSIDE = /^[^\p{Alphabetic}\p{N}+\-\u2010-\u2015\u2212]+|[^\p{Alphabetic}\p{N}+\-\u2010-\u2015\u2212]+$/gu;
  const isShort = (text) => 2 >= [...text].length;

  function token(raw) {
    const typed = raw.replace(OUTSIDE, "") || raw;
    const said = ["+", "-"].find((sign) => SAID[sign].includes(printed(typed)));
    const text = said ?? oneDash(typed).replace(/(?<=[+-])ve$/i, "");
    const meant = said || isKnown(text) ? [] : slips(nameKey(raw));
    const slip = meant.length > 0;
    return { typed, texts: slip ? meant : [text], said, slip, likeMark: /[\p{Lu}\p{N}]/u.test(raw) };
  }
  function isKnown(text) {
    const [word, forms] = [nameKey(text), pieces(text)];
    const isWord = fillers.has(word) || weak.has(word) || known.has(word) || forms.some((form) => has(`w${form}`));
    return isWord || has(`n${word}`) || has(`c${forms.join("")}`) || has(`b${key(text).base}`, "base");
  }
  // The known words one slip of the finger away: two letters swapped, one left out, one too many, one wrong.
  function slips(word) {
    const isSlip = (one) => {
      let at = 0;
      while (word.length > at && one[at] === word[at]) at += 1;
      const [a, b] = [one.slice(at), word.slice(at)];
      const isSwap = a[0] === b[1] && a[1] === b[0] && a.slice(2) === b.slice(2);
      return isSwap || a.slice(1) === b.slice(1) || a === b.slice(1) || a.slice(1) === b;
    };
    return /^\p{Alphabetic}{4,24}$/u.test(word) ? spelled.filter((one) => one.length >= 4 && isSlip(one)) : [];
  }

  const knowsMark = ({ base, sign }) => (sign ? has(`s${base}${sign}`, "mark") : has(`b${base}`, "mark", "base"));
  const joined = (window) => window.map((it) => it.texts[0]).join(" ");
  function belongTogether(window) {
    const text = joined(window);
    const [forms, mark, [first, ...tail]] = [pieces(text), key(text), window];
    const signs = window.filter((it) => it.said).length;
    const isOne = forms.length === 1 && has(`w${forms[0]}`, "does", "told");
    const keys = [`n${nameKey(text)}`, `c${forms.join("")}`, `f${forms.join(" ")}`, `g${forms.join(" ")}`];
    if (signs === 0 && (isOne || keys.some((one) => has(one)))) return true;
    // One mark with spaces in it: behind the first only numbers, one or two letters, and a sign.
    const isTail = (it) => it.said || isShort(it.texts[0]) || /^\d*$/.test(it.texts[0]);
    const hasInner = signs > 0 && window.some((it) => !it.said && key(it.texts[0]).sign);
    if (!tail.every(isTail) || signs > 1 || hasInner || mark.base === "") return false;
    if (/^\S+ \d+$/.test(text) && has(`w${pieces(first.texts[0]).join(" ")}`, "fuse")) return true;
    const isApart = signs === 1 || tail.some((it) => /\d/.test(it.texts[0])) || window.every((it) => isShort(it.texts[0]));
    return isApart && knowsMark(mark);
  }
  /** The names that keep an answer to their cards, the things that are asked about, and what was read as what. */
  return function ask(question) {
    const asked = { names: [], things: [], readAs: [] };
    const isLooked = (word) => word && 200 >= new TextEncoder().encode(word).length;
    const tokens = question.split(SPACE).filter(isLooked).slice(0, 48).map(token);
    for (const it of tokens) if (it.slip) asked.readAs.push([it.typed, it.texts]);
    for (let at = 0; tokens.length > at; ) {
      let width = Math.min(5, tokens.length - at);
      while (width > 1 && !belongTogether(tokens.slice(at, at + width))) width -= 1;
      take(asked, tokens.slice(at, at + width), 2 >= tokens.length);
      at += width;
    }
    const isWeak = asked.names.length === 0 && asked.things.every((thing) => thing.weak);
    if (isWeak) asked.things.forEach((thing) => (thing.weak = false));
    return asked;
  };
  function take({ names, things }, window, isFew) {
    const [first, isOne, text] = [window[0], window.length === 1, joined(window)];
    if (first.said && isOne) return saySign(things, first);
    const [name, { sign }, isMark] = [nameKey(text), key(text), knowsMark(key(text))];
    const isName = sign === "" && has(`n${name}`, "of");
    const isWord = isOne && pieces(text).some((form) => has(`w${form}`, "does"));
    if (isName && !isMark && !isWord) return names.push(name);
    if (isOne && fillers.has(name) && !(isMark && (first.likeMark || isFew))) return 0;
    const texts = (isOne ? first.texts : [text]).map((one) => one.replace(/^[+\- ]+|[+\- ]+$/g, "")).filter(Boolean);
    const apart = isOne ? [] : window.filter((it) => !it.said).map((it) => it.texts[0]);
    const words = apart.filter((word) => !fillers.has(nameKey(word)));
    const typed = window.map((it) => it.typed).join(" ");
    const slip = window.some((it) => it.slip);
    return things.push({ typed, texts, words, sign, weak: isOne && weak.has(name), slip, isName });
  }
  // A sign is said of the word before it, if that has none; else it stands alone. Said of no mark, it must be found.
  function saySign(things, { typed, said }) {
    const last = things.at(-1);
    const isAlone = !last || last.sign || last.texts.length === 0;
    if (isAlone) return things.push({ typed, texts: [], words: [], sign: said, must: true });
    const isMark = (text) => has(`c${pieces(text).join("")}`, "ringBase") || has(`b${key(text).base}`, "base");
    last.must = typed.length > 1 && !last.texts.some(isMark);
    return Object.assign(last, { sign: said, typed: `${last.typed} ${typed}` });
  }
}
