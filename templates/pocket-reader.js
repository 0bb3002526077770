// What a question asks for: words, each as it is read, then what belongs together (src/search/ask).
function makeReader(habits, words, spelled) {
  const { has, key, printed, nameKey, pieces } = words;
  const [fillers, weak, known] = [habits.fillers, habits.weak, spelled].map((list) => new Set(list));
  const SAID = { "+": ["+", "+ve", "plus", "positive", "pos"], "-": ["-", "-ve", "minus", "negative", "neg"] };
  const OUTSIDE = /^[!-*,./:-@[-`{-~\u2018-\u2027\u00ab\u00bb]+|[!-*,./:-@[-`{-~\u2018-\u2027\u00ab\u00bb]+$/g;
  const isShort = (text) => 2 >= [...text].length;

  function token(raw) {
    const typed = raw.replace(OUTSIDE, "") || raw;
    const said = ["+", "-"].find((sign) => SAID[sign].includes(printed(typed)));
    const text = said ?? typed.replace(DASHES, "-").replace(/(?<=[+-])ve$/i, "");
    const meant = said || isKnown(text) ? [] : slips(nameKey(raw));
    const slip = meant.length > 0;
    return { typed, texts: slip ? meant : [text], said, slip, likeMark: /\d/.test(raw) || raw !== raw.toLowerCase() };
  }
  function isKnown(text) {
    const [word, forms] = [nameKey(text), pieces(text)];
    const isWord = fillers.has(word) || weak.has(word) || known.has(word) || forms.some((form) => has(`w${form}`));
    return isWord || has(`n${word}`) || has(`c${forms.join("")}`) || has(`b${key(text).base}`, "base");
  }
  // The known words one slip of the finger away: two letters swapped, one left out, one too many, one wrong.
  function slips(word) {
    const isSlip = (one, at = 0) => {
      if (one[at] === word[at] && word.length > at) return isSlip(one, at + 1);
      const [a, b] = [one.slice(at), word.slice(at)];
      return [a.slice(1), a[1] + a[0] + a.slice(2)].some((text) => text === b) || [a, a.slice(1)].includes(b.slice(1));
    };
    if (4 > word.length || word.length > 24 || /\d/.test(word)) return [];
    return spelled.filter((one) => one.length >= 4 && 2 > Math.abs(one.length - word.length) && isSlip(one));
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
    const isNumbered = tail.some((it) => /\d/.test(it.texts[0]));
    return (signs === 1 || isNumbered || window.every((it) => isShort(it.texts[0]))) && knowsMark(mark);
  }
  /** The names that keep an answer to their cards, the things that are asked about, and what was read as what. */
  return function ask(question, cardNames) {
    const tokens = question.split(SPACE).filter((word) => word && 200 >= word.length).slice(0, 48).map(token);
    const readAs = tokens.filter((it) => it.slip).map((it) => [it.typed, it.texts]);
    const asked = { names: [...cardNames], things: [], readAs };
    for (let at = 0; tokens.length > at; ) {
      let width = Math.min(5, tokens.length - at);
      while (width > 1 && !belongTogether(tokens.slice(at, at + width))) width -= 1;
      take(asked, tokens.slice(at, at + width), 2 >= tokens.length);
      at += width;
    }
    const isAllWeak = asked.names.length === 0 && asked.things.every((thing) => thing.weak);
    return isAllWeak ? { ...asked, things: asked.things.map((thing) => ({ ...thing, weak: false })) } : asked;
  };
  function take({ names, things }, window, isFew) {
    const [first, isOne, text] = [window[0], window.length === 1, joined(window)];
    if (first.said && isOne) return saySign(things, first);
    const [name, { sign }, isMark] = [nameKey(text), key(text), knowsMark(key(text))];
    const isName = sign === "" && has(`n${name}`, "of");
    const isWord = isOne && pieces(text).some((form) => has(`w${form}`, "does"));
    if (isName && (names.includes(name) || (!isMark && !isWord))) return names.push(name);
    if (isOne && fillers.has(name) && !(isMark && (first.likeMark || isFew))) return 0;
    const texts = (isOne ? first.texts : [text]).map((one) => one.replace(/^[+\- ]+|[+\- ]+$/g, "")).filter(Boolean);
    const apart = window.filter((it) => !isOne && !it.said && !fillers.has(nameKey(it.texts[0])));
    const [typed, words] = [window.map((it) => it.typed).join(" "), apart.map((it) => it.texts[0])];
    const [isWeak, slip] = [isOne && weak.has(name), window.some((it) => it.slip)];
    return things.push({ typed, texts, words, sign, weak: isWeak, slip, name: isName ? name : "" });
  }
  // A sign is said of the word before it, if that has none; else it stands alone. Said of no mark, it must be found.
  function saySign(things, { typed, said }) {
    const last = things.at(-1);
    if (!last?.texts.length || last.sign) return things.push({ typed, texts: [], words: [], sign: said, must: true });
    const isMark = (text) => has(`c${pieces(text).join("")}`, "ringBase") || has(`b${key(text).base}`, "base");
    last.must = typed.length > 1 && !last.texts.some(isMark);
    return Object.assign(last, { sign: said, typed: `${last.typed} ${typed}` });
  }
}
