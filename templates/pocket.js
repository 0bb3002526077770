// The page: what is shown for which fragment. `#card/terminal` shows a card at a terminal, `#?words` a question, `#/figures`,
// `#/packs` and `#/pack/survey` the rest; so the back button works, and a link can point at any of them.
"use strict";
(() => {
{% include "pocket-words.js" %}
{% include "pocket-reader.js" %}
{% include "pocket-search.js" %}
{% include "pocket-figures.js" %}
{% include "pocket-packs.js" %}

  const KINDS = ["card", "terminal", "fuse", "siren", "zone", "link", "marking", "caution", "note"];
  const HEADS = ["", "Terminals, in board order", "Fuses", "Siren wiring", "Zones", "Links", "Markings", "Cautions", "Notes"];
  const MOST = 10;
  const byId = (id) => document.getElementById(id);
  const data = (id) => byId(id).textContent;
  const view = byId("view");

  // The index is read when it is first asked, the cards when one is first shown: the page opens at once.
  const once = (work) => {
    let made;
    return () => (made ??= work());
  };
  const searching = once(() => makeSearch(JSON.parse(data("index"))));
  const lines = once(() => data("cards").split("\n"));
  const texts = once(() => data("texts").split("\n"));
  const ids = once(() => new Map(lines().map((line, at) => [/^\["([^"]*)"/.exec(line)?.[1], at])));
  const cards = new Map();
  function cardAt(at) {
    if (!cards.has(at)) cards.set(at, JSON.parse(lines()[at]));
    return cards.get(at);
  }
  function factOf([kind, ...parts]) {
    const text = (part) => (typeof part === "number" && part > 0 ? JSON.parse(texts()[part - 1]) : part);
    const [mark, said, danger, volts, fuse, check, known] = parts.slice(0, 7).map(text);
    return { kind: KINDS[kind], mark, text: said, danger, volts, fuse, check, known, side: parts[7] };
  }
  function factAt(number) {
    const { cards: places } = searching();
    let [low, high] = [0, places.length - 1];
    while (high > low) {
      const middle = (low + high + 1) >> 1;
      if (places[middle][0] > number) high = middle - 1;
      else low = middle;
    }
    const [id, name, facts] = cardAt(low);
    return { id, name, fact: factOf(facts[number - places[low][0]]) };
  }

  // An element with what it holds; text is only ever text.
  function make(name, about = {}, ...inside) {
    const element = document.createElement(name);
    for (const [key, value] of Object.entries(about)) if (value !== undefined) element.setAttribute(key, value);
    element.append(...inside.filter((part) => part !== undefined && part !== ""));
    return element;
  }
  const link = (id, mark) => `#${encodeURIComponent(id)}${mark ? `/${encodeURIComponent(mark)}` : ""}`;
  const capital = (word) => word.slice(0, 1).toUpperCase() + word.slice(1);

  // What is known of a fact, what can hurt before all else.
  function told(fact) {
    const out = [];
    if (fact.danger) out.push(make("p", { class: "danger" }, make("strong", {}, "Danger: "), fact.danger));
    out.push(make("p", { class: "text" }, fact.text));
    const rows = [["Volts", fact.volts], ["Fuse", fact.kind === "fuse" ? 0 : fact.fuse], ["Check", fact.check], ["Known", fact.known]];
    for (const [label, text] of rows) if (text) out.push(make("p", { class: label.toLowerCase() }, make("b", {}, `${label}: `), text));
    return out;
  }

  function hit({ fact: number, opposite }, side) {
    const { id, name, fact } = factAt(number);
    const mark = make("strong", { class: "mark" }, fact.mark || capital(fact.kind));
    const head = make("p", { class: "head" }, mark, ` ${fact.mark ? fact.kind : ""} `, make("span", { class: "of" }, name));
    const this_ = fact.mark && /[+-]/.test(fact.mark) ? fact.mark : `${fact.mark || ""} ${fact.side === "+" ? "positive" : "negative"}`.trim();
    const warning = opposite ? make("p", { class: "danger" }, `Opposite sign: asked ${side}, this is ${this_}.`) : undefined;
    const about = { "data-card": id, "data-kind": fact.kind, "data-mark": fact.mark || "", "data-text": fact.text.slice(0, 40), "data-side": fact.side || "", "data-opposite": opposite };
    return make("li", about, make("a", { href: link(id, fact.mark) }, warning, head, ...told(fact)));
  }

  function find(words) {
    view.replaceChildren(byId("find-view").content.cloneNode(true));
    const input = byId("words");
    input.value = words;
    input.addEventListener("input", () => {
      ask(input.value);
      keep(input.value);
    });
    byId("ask").addEventListener("submit", (event) => {
      event.preventDefault();
      input.blur();
    });
    ask(words);
    if (words === "") input.focus({ preventScroll: true });
  }
  // A question stands in the address, so that going back from a card comes back to it.
  function keep(words) {
    try {
      history.replaceState(null, "", words === "" ? "#/find" : `#?${encodeURIComponent(words)}`);
    } catch {
      // A page that was opened as a file may not; the question then is lost on the way back.
    }
  }
  function ask(words) {
    const said = [];
    if (words.trim() === "") {
      byId("hits").replaceChildren();
      byId("said").replaceChildren(make("p", {}, `${lines().length} cards. Type a mark as it is printed, or words. A+ and A- are different screws.`));
      return;
    }
    const { hits, readAs, missing, side, part } = searching().answer(words, MOST);
    for (const [typed, read] of readAs) said.push(`${typed} read as ${read.join(" or ")}.`);
    if (missing.length > 0) said.push(`Nothing is known of ${missing.join(", ")}.`);
    if (part) said.push("No fact has all of it; these have the most.");
    if (hits.length === 0) said.push("Nothing found.");
    byId("said").replaceChildren(...said.map((text) => make("p", {}, text)));
    byId("hits").replaceChildren(...hits.map((one) => hit(one, side)));
    if (hits.length === 0) begun(words);
  }
  // While a word is half typed: the cards whose name begins so.
  function begun(words) {
    const wanted = words.trim().toLowerCase();
    const near = [];
    for (let at = 0; lines().length > at && MOST > near.length; at += 1) {
      const [, id, name] = /^\["([^"]*)","((?:[^"\\]|\\.)*)"/.exec(lines()[at]) ?? [];
      if (id && [id, ...name.toLowerCase().split(" ")].some((word) => word.startsWith(wanted))) near.push([id, JSON.parse(`"${name}"`)]);
    }
    byId("hits").replaceChildren(...near.map(([id, name]) => make("li", {}, make("a", { href: link(id) }, make("p", { class: "head" }, make("strong", { class: "mark" }, name))))));
    if (near.length > 0) byId("said").append(make("p", {}, "Cards whose name begins so:"));
  }

  function showCard(id, mark) {
    const at = ids().get(id);
    if (at === undefined) return view.replaceChildren(make("h1", {}, "No such card"), make("p", {}, `There is no card ${id} in this file.`));
    const [, name, raw] = cardAt(at);
    const all = raw.map(factOf);
    const of = (kind) => all.filter((fact) => fact.kind === kind);
    const parts = [make("h1", {}, name)];
    // What can hurt stands before all else.
    for (const fact of of("caution")) parts.push(make("p", { class: "danger" }, make("strong", {}, "Caution: "), fact.text));
    for (const fact of of("card")) parts.push(...told(fact));
    KINDS.forEach((kind, at) => {
      const facts = kind === "card" || kind === "caution" ? [] : of(kind);
      if (facts.length === 0) return;
      const rows = facts.map((fact) => make("li", fact.mark ? { "data-mark": fact.mark, tabindex: "-1" } : {}, fact.mark ? make("h3", { class: "mark" }, fact.mark) : undefined, ...told(fact)));
      parts.push(make("section", {}, make("h2", {}, HEADS[at]), make("ul", { class: "facts" }, ...rows)));
    });
    view.replaceChildren(...parts);
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
    window.scrollTo(0, 0);
    if (at === "" || at === "/find") find("");
    else if (at.startsWith("?")) find(decoded(at.slice(1)));
    else if (at === "/figures") tab = showFigures(view, make, JSON.parse(data("figures")));
    else if (at === "/packs" || at.startsWith("/pack/")) tab = showPacks(view, make, decoded(more[1] ?? ""));
    else showCard(decoded(first), decoded(more.join("/")));
    for (const link of byId("tabs").children) {
      if (link.dataset.tab === tab) link.setAttribute("aria-current", "page");
      else link.removeAttribute("aria-current");
    }
  }
  window.addEventListener("hashchange", show);
  show();
  // Read while nobody types yet, so that the first letter finds it ready.
  setTimeout(searching, 50);
})();
