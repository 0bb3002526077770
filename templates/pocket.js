// The page: what is shown for which fragment. `#card/terminal` shows a card at a terminal, `#?words` a question,
// `#/figures`, `#/packs` and `#/pack/survey` the rest; so the back button works, and a link can point at any of them.
"use strict";
// In brackets, so that a browser compiles it while it reads it, and not once more when it is called.
document.addEventListener("DOMContentLoaded", (() => {
{% include "pocket-words.js" %}
{% include "pocket-reader.js" %}
{% include "pocket-search.js" %}
{% include "pocket-figures.js" %}
{% include "pocket-packs.js" %}

  // The kinds of facts, and what stands over them on a card.
  const KINDS = {
    card: "", terminal: "Terminals, in board order", fuse: "Fuses", siren: "Siren wiring", zone: "Zones", link: "Links",
    marking: "Markings", caution: "", note: "Notes",
  };
  const MOST = 10;
  const byId = (id) => document.getElementById(id);
  const data = (id) => byId(id).textContent;
  const view = byId("view");

  // What is not asked for is not read: a text is cut into sheets of lines when one of them is wanted first, and a sheet
  // into its lines (src/render/pocket.rs).
  const once = (work) => {
    let made;
    return () => (made ??= work());
  };
  const SHEET = 64;
  const lineOf = (id) => {
    const [sheets, cut] = [once(() => data(id).split("\f")), new Map()];
    return (at) => {
      const sheet = Math.floor(at / SHEET);
      if (!cut.has(sheet)) cut.set(sheet, sheets()[sheet].split("\n"));
      return cut.get(sheet)[at % SHEET];
    };
  };
  const [places, sayings, texts, notes, pictures] = ["places", "sayings", "texts", "notes", "pictures"].map(lineOf);
  const cards = once(() => data("cards").split("\n"));
  const searching = once(() => {
    const [lines, lists] = ["lines", "lists"].map(data);
    const spelled = data("spelled").split(" ");
    return makeSearch(JSON.parse(data("habits")), { lines, lists, places, spelled, cards: cards() });
  });
  const ids = once(() => new Map(cards().map((line, at) => [JSON.parse(line)[0], at])));
  function saying(at) {
    const [kind, ...parts] = JSON.parse(sayings(at));
    const read = (part) => {
      if (Array.isArray(part)) return part.map(read).join("");
      return typeof part === "number" && part > 0 ? JSON.parse(texts(part - 1)) : part;
    };
    const [mark, text, danger, volts, fuse, check, known, side] = parts.slice(0, 8).map(read);
    const note = parts[8];
    return { kind: Object.keys(KINDS)[kind], mark, text, danger, volts, fuse, check, known, side, note };
  }
  // The card of a fact, and what it says.
  function factAt(fact) {
    const { starts, sayingsOf } = searching();
    let [low, high] = [0, starts.length - 1];
    while (high > low + 1) {
      const middle = (low + high) >> 1;
      if (starts[middle] > fact) high = middle;
      else low = middle;
    }
    const [id, name] = JSON.parse(cards()[low]);
    return { id, name, fact: saying(sayingsOf(low)[fact - starts[low]]) };
  }

  // An element with what it holds: elements, text that is only ever text, and its attributes. `p.danger` has a class.
  function make(name, ...inside) {
    const [tag, kind] = name.split(".");
    const element = document.createElement(tag);
    if (kind) element.className = kind;
    for (const part of inside) {
      if (part instanceof Node || typeof part === "string") element.append(part);
      else for (const [key, value] of Object.entries(part ?? {})) element.setAttribute(key, value);
    }
    return element;
  }
  // Puts the pictures in the places that name them; a drawing scrolls in its box, by the keyboard too.
  function filled(element) {
    for (const image of element.querySelectorAll("img[data-picture]")) {
      image.src = pictures(Number(image.dataset.picture));
      if (image.classList.contains("drawing")) image.parentElement.tabIndex = 0;
    }
    return element;
  }
  const link = (id, mark) => `#${encodeURIComponent(id)}${mark ? `/${encodeURIComponent(mark)}` : ""}`;
  const named = (id, name) => make("li", make("a", { href: link(id) }, make("p.head", make("strong.mark", name))));

  // What is known of a fact, what can hurt before all else. On its card a note is as the program wrote it for a pack.
  function told(fact, isOnCard) {
    const note = make("div.note");
    const html = fact.note && isOnCard ? notes(fact.note - 1) : "";
    if (html) note.innerHTML = JSON.parse(html);
    const fuse = fact.kind === "fuse" ? undefined : fact.fuse;
    const rows = [["Volts", fact.volts], ["Fuse", fuse], ["Check", fact.check], ["Known", fact.known]];
    const known = rows.filter(([, text]) => text);
    return [
      ...(fact.danger ? [make("p.danger", make("strong", "Danger: "), fact.danger)] : []),
      note.childElementCount > 0 ? filled(note) : make("p.text", fact.text),
      ...known.map(([label, text]) => make(`p.${label.toLowerCase()}`, make("b", `${label}: `), text)),
    ];
  }
  function hit({ fact: number, opposite }, asked) {
    const { id, name, fact } = factAt(number);
    const mark = fact.mark || "";
    const is = /^[+-]|[+-]$/.test(mark) ? mark : [mark, fact.side].filter(Boolean).join(", ");
    const wanted = asked === "+" ? "positive" : "negative";
    const warning = opposite ? make("p.danger", `Opposite sign: asked ${wanted}, this is ${is}.`) : "";
    const shown = make("strong.mark", mark || fact.kind.slice(0, 1).toUpperCase() + fact.kind.slice(1));
    const head = make("p.head", shown, ` ${mark && fact.kind} `, make("span.of", name));
    const about = { card: id, kind: fact.kind, mark, text: fact.text.slice(0, 40), side: fact.side || "", opposite };
    const row = make("li", make("a", { href: link(id, mark) }, warning, head, ...told(fact)));
    Object.assign(row.dataset, about);
    return row;
  }

  function find(words) {
    view.replaceChildren(byId("find-view").content.cloneNode(true));
    const input = byId("words");
    input.value = words;
    input.addEventListener("input", () => {
      ask(input.value);
      typed = input.value;
      clearTimeout(resting);
      resting = setTimeout(keep, 300);
    });
    byId("ask").addEventListener("submit", (event) => {
      event.preventDefault();
      input.blur();
    });
    ask(words);
    // With the next frame, which lays the page out anyway.
    if (words === "") requestAnimationFrame(() => input.focus({ preventScroll: true }));
  }
  // A question stands in the address, so that going back from a card comes back to it. It is put there when the fingers
  // rest, or touch something: that takes too long for every letter.
  let typed;
  let resting;
  function keep() {
    if (typed === undefined) return;
    try {
      history.replaceState(null, "", typed === "" ? "#/find" : `#?${encodeURIComponent(typed)}`);
    } catch {
      // A page that was opened as a file may not; the question then is lost on the way back.
    }
    typed = undefined;
  }
  document.addEventListener("click", keep, true);
  function ask(words) {
    const say = (said, hits) => {
      byId("said").replaceChildren(...said.map((text) => make("p", text)));
      byId("hits").replaceChildren(...hits);
    };
    const first = "Type a mark as it is printed, or words. A+ and A- are different screws.";
    if (words.trim() === "") return say([`${view.dataset.cards} cards. ${first}`], []);
    const { hits, readAs, missing, side, part } = searching().answer(words, MOST);
    const said = readAs.map(([typed, read]) => `${typed} read as ${read.join(" or ")}.`);
    if (missing.length > 0) said.push(`Nothing is known of ${missing.join(", ")}.`);
    if (part) said.push("No fact has all of it; these have the most.");
    if (hits.length > 0) return say(said, hits.map((one) => hit(one, side)));
    const near = begun(words.trim().toLowerCase());
    return say([...said, "Nothing found.", ...(near.length > 0 ? ["Cards whose name begins so:"] : [])], near);
  }
  // While a word is half typed: the cards whose name begins so.
  function begun(words) {
    const near = [];
    for (const line of cards()) {
      const [id, name] = line.toLowerCase().includes(words) ? JSON.parse(line) : [];
      const isNear = id && [id, ...name.toLowerCase().split(" ")].some((word) => word.startsWith(words));
      if (isNear) near.push(named(id, name));
      if (near.length === MOST) break;
    }
    return near;
  }

  function showCard(id, mark) {
    const at = ids().get(id);
    const none = [make("h1", "No such card"), make("p", `There is no card ${id} in this file.`)];
    if (at === undefined) return view.replaceChildren(...none);
    const [, name] = JSON.parse(cards()[at]);
    const all = searching().sayingsOf(at).map(saying);
    const of = (kind) => all.filter((fact) => fact.kind === kind);
    // What can hurt stands before all else.
    const cautions = of("caution").map((fact) => make("p.danger", make("strong", "Caution: "), fact.text));
    const sections = Object.entries(KINDS).filter(([kind, head]) => head && of(kind).length > 0).map(([kind, head]) => {
      const rows = of(kind).map((fact) => {
        const about = fact.mark ? [{ "data-mark": fact.mark, tabindex: "-1" }, make("h3.mark", fact.mark)] : [];
        return make("li", ...about, ...told(fact, true));
      });
      return make("section", make("h2", head), make("ul.facts", ...rows));
    });
    view.replaceChildren(make("h1", name), ...cautions, ...of("card").flatMap((fact) => told(fact)), ...sections);
    const row = mark && [...view.querySelectorAll("[data-mark]")].find((row) => row.dataset.mark === mark);
    if (!row) return undefined;
    row.classList.add("here");
    row.scrollIntoView({ block: "center" });
    return row.focus({ preventScroll: true });
  }

  function decoded(text) {
    try {
      return decodeURIComponent(text);
    } catch {
      return text;
    }
  }
  function show() {
    const at = location.hash.slice(1);
    const [first, ...more] = at.split("/");
    let tab = "find";
    typed = undefined;
    if (at === "" || at === "/find") find("");
    else if (at.startsWith("?")) find(decoded(at.slice(1)));
    else if (at === "/figures") tab = showFigures(view, make, JSON.parse(data("figures")));
    else if (/^\/packs?(\/|$)/.test(at)) tab = showPacks(view, { make, filled }, decoded(more[1] ?? ""));
    else showCard(decoded(first), decoded(more.join("/")));
    for (const link of byId("tabs").children) {
      if (link.dataset.tab === tab) link.setAttribute("aria-current", "page");
      else link.removeAttribute("aria-current");
    }
  }
  window.addEventListener("hashchange", () => {
    window.scrollTo(0, 0);
    show();
  });
  show();
  // Read and tried while nobody types yet, so that the first letter finds it ready.
  setTimeout(() => searching().answer("a", 1), 50);
}));
