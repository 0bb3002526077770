// The office's page: sort, filter, tick packs, and add up the parts of those chosen. Without it the page is two plain tables.
"use strict";
// Rows are not drawn while they come in: of twenty thousand a browser would draw all, again and again.
document.documentElement.classList.add("coming");
document.addEventListener("DOMContentLoaded", () => {
  // So many rows are shown at once: a browser draws a hundred at once, and twenty thousand in seconds.
  const STEP = 100;
  const byId = (id) => document.getElementById(id);
  const packs = document.querySelector(".packs table");
  const body = packs.tBodies[0];
  const kinds = [...document.querySelector(".parts tbody").rows];
  const rows = [...body.rows].map((element, at) => ({ element, at, picked: false }));
  const order = new Intl.Collator("en", { numeric: true });
  let list = rows;
  let shown = STEP;
  let column = null;
  let down = false;

  // What a row says, read when it is first asked for.
  const cells = (row) => (row.cells ??= [...row.element.cells].map((cell) => cell.textContent));
  const words = (row) => (row.words ??= cells(row).join(" ").toLowerCase());
  const parts = (row) => (row.parts ??= row.element.dataset.parts.split(" ").filter(Boolean).map((part) => part.split(":").map(Number)));
  const isReady = (row) => cells(row)[1] === "READY";

  function chosen() {
    const picked = rows.filter((row) => row.picked);
    return picked.length > 0 ? picked : list;
  }

  function filter() {
    const wanted = byId("words").value.toLowerCase().split(" ").filter(Boolean);
    const state = byId("state").value;
    const reason = byId("reason").value;
    const fits = (row) =>
      (state === "" || cells(row)[1] === state) &&
      (reason === "" || row.element.dataset.why.split(" ").includes(reason)) &&
      wanted.every((word) => words(row).includes(word));
    list = rows.filter(fits);
    if (column !== null) {
      const sign = down ? -1 : 1;
      list.sort((a, b) => sign * order.compare(cells(a)[column], cells(b)[column]) || a.at - b.at);
    }
    shown = STEP;
    show();
  }

  // The box of a row is made when the row is first shown.
  function withBox(row) {
    if (row.box) return row.element;
    const label = document.createElement("label");
    label.className = "tick";
    row.box = label.appendChild(document.createElement("input"));
    row.box.type = "checkbox";
    row.box.checked = row.picked;
    row.box.setAttribute("aria-label", `Tick ${cells(row)[0]}`);
    row.element.cells[0].prepend(label);
    row.box.addEventListener("change", () => {
      row.picked = row.box.checked;
      say();
    });
    return row.element;
  }

  function show() {
    body.replaceChildren(...list.slice(0, shown).map(withBox));
    const more = list.length - shown;
    byId("more").hidden = 0 >= more;
    byId("more").textContent = `Show ${Math.min(STEP, more)} more of ${more}`;
    say();
  }

  // How many packs there are, and what the chosen ones need.
  function say() {
    const picked = rows.filter((row) => row.picked).length;
    byId("said").textContent = `${list.length} of ${rows.length} packs, ${list.filter(isReady).length} of them ready. ${picked} ticked.`;
    const those = chosen();
    const open = those.filter((row) => !isReady(row)).length;
    const which = picked > 0 ? `the ${picked} ticked` : list.length === rows.length ? "all" : `the ${list.length} found`;
    byId("whose").textContent = `Over ${which} packs${open > 0 ? `; ${open} of them not ready, so what they ask for may change` : ""}.`;
    add(those);
  }

  function add(those) {
    const totals = kinds.map(() => [0, 0]);
    for (const row of those) {
      for (const [kind, count] of parts(row)) {
        totals[kind][0] += count;
        totals[kind][1] += 1;
      }
    }
    kinds.forEach((kind, at) => {
      const [count, packs] = totals[at];
      kind.hidden = packs === 0;
      kind.cells[0].textContent = count;
      kind.cells[2].textContent = packs;
    });
  }

  function pick(those, picked) {
    for (const row of those) {
      row.picked = picked;
      if (row.box) row.box.checked = picked;
    }
    say();
  }

  // Each head becomes a button that sorts by its column, and the other way round at the second touch.
  function sortable(head, at) {
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = head.textContent;
    head.replaceChildren(button);
    button.addEventListener("click", () => {
      down = column === at && !down;
      column = at;
      for (const other of packs.tHead.rows[0].cells) other.removeAttribute("aria-sort");
      head.setAttribute("aria-sort", down ? "descending" : "ascending");
      filter();
    });
  }

  let waiting;
  byId("choose").addEventListener("input", () => {
    clearTimeout(waiting);
    waiting = setTimeout(filter, 150);
  });
  byId("choose").addEventListener("submit", (event) => event.preventDefault());
  byId("more").addEventListener("click", () => {
    shown += STEP;
    show();
  });
  byId("pick").addEventListener("click", () => pick(list, true));
  byId("unpick").addEventListener("click", () => pick(rows, false));
  byId("print").addEventListener("click", () => window.print());
  // Paper has the chosen packs, all of them.
  window.addEventListener("beforeprint", () => body.replaceChildren(...chosen().map((row) => row.element)));
  window.addEventListener("afterprint", show);

  [...packs.tHead.rows[0].cells].forEach(sortable);
  byId("choose").hidden = false;
  byId("print").hidden = false;
  filter();
  document.documentElement.classList.remove("coming");
});
