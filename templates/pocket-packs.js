// The packs: their pages with boxes to tick, their test sheets with blanks to fill in. What is filled in is kept by the
// browser, held against its window at once, and saved as a file that `wirelore readings` brings back into the survey.
function showPacks(view, { make, filled }, wanted) {
  // Units as they are written, by how they are typed: the key of a reading, how much of it, what is printed.
  const [V, A, R] = [["V", "volts"], ["A", "amps"], ["Ω", "ohms"]];
  const UNITS = new Map([
    ["V", [...V, 1]], ["v", [...V, 1]], ["mV", ["mV", "volts", 0.001]], ["mv", ["mV", "volts", 0.001]],
    ["A", [...A, 1]], ["a", [...A, 1]], ["mA", ["mA", "amps", 0.001]], ["ma", ["mA", "amps", 0.001]],
    ["Ω", [...R, 1]], ["ω", [...R, 1]], ["r", [...R, 1]], ["ohm", [...R, 1]], ["ohms", [...R, 1]],
    ["k", ["kΩ", "ohms", 1000]], ["kΩ", ["kΩ", "ohms", 1000]], ["kω", ["kΩ", "ohms", 1000]],
    ["MΩ", ["MΩ", "ohms", 1e6]],
  ]);
  const packs = [...document.querySelectorAll("template.pack")];
  const titleOf = (pack) => pack.content.querySelector("h1")?.textContent ?? pack.dataset.survey;
  const pack = packs.find((one) => one.dataset.survey === wanted);

  // A browser may refuse its store, for a file or in a private window: then what is typed lasts while the page is open.
  let refused = false;
  function store(work, otherwise) {
    try {
      return work(window.localStorage);
    } catch {
      refused = true;
      return otherwise;
    }
  }
  const memory = (showPacks.memory ??= new Map());
  function get(key) {
    return store((kept) => kept.getItem(key), undefined) ?? memory.get(key) ?? "";
  }
  function set(key, value) {
    memory.set(key, value);
    store((kept) => (value === "" ? kept.removeItem(key) : kept.setItem(key, value)));
  }
  set("wirelore pocket", "1");

  // What a blank says: a number with its unit, the blank's own where none is typed, or open. Null: neither.
  function read(text, row) {
    const clean = text.trim().replace(",", ".");
    const isOpen = /^(open|o\.?l\.?)$/i.test(clean);
    if (isOpen) return row.unit === "Ω" ? { key: "ohms", text: "open", value: Infinity } : null;
    const [, number, typed] = /^([+-]?(?:\d+\.?\d*|\.\d+))\s*([a-zµΩ]*)$/iu.exec(clean) ?? [];
    if (number === undefined) return null;
    const [word, key, times] = UNITS.get(typed || row.blank) ?? UNITS.get(typed.toLowerCase()) ?? [];
    if (key === undefined || UNITS.get(row.unit)?.[1] !== key) return null;
    const plain = number.replace(/^\+/, "").replace(/^(-?)\./, "$10.").replace(/\.$/, "");
    return { key, text: `${plain} ${word}`, value: Number(plain) * times };
  }
  // As src/pack/test_sheet/measure.rs holds it.
  function held(it, { least, most, open }) {
    if (open) return it.value === Infinity ? "within" : "outside";
    if (least === null && most === null) return "loose";
    const spare = (end) => 1e-9 * Math.max(Math.abs(end), 1);
    const isLess = least !== null && least - spare(least) > it.value;
    return isLess || (most !== null && it.value > most + spare(most)) ? "outside" : "within";
  }
  const SAID = {
    within: "Within its window.",
    outside: "OUTSIDE its window: stop, find out why.",
    loose: "Not held: there is no window, only what must be read.",
    wrong: "A number with its unit is due, or open.",
  };

  const keyOf = (survey, row, what) => `wirelore reading ${survey}: ${row.no} ${row.what} ${what}`;
  function blank(survey, row) {
    const id = `read-${row.no}`;
    const about = { inputmode: row.open ? "text" : "decimal", autocomplete: "off", "aria-describedby": `${id}-said` };
    const input = make("input", { id, ...about });
    const said = make("p.held", { id: `${id}-said`, role: "status" });
    const box = make("input", { type: "checkbox", id: `done-${row.no}` });
    const tick = make("label.tick", { for: box.id }, box, row.reports ? ` The board reports ${row.reports}` : " Done");
    input.value = get(keyOf(survey, row, "read"));
    box.checked = get(keyOf(survey, row, "done")) !== "";
    const judge = () => {
      const it = read(input.value, row);
      const state = input.value.trim() === "" ? "" : it === null ? "wrong" : held(it, row);
      said.textContent = SAID[state] ?? "";
      said.classList.toggle("danger", state === "outside" || state === "wrong");
    };
    input.addEventListener("input", () => {
      set(keyOf(survey, row, "read"), input.value);
      judge();
    });
    box.addEventListener("change", () => set(keyOf(survey, row, "done"), box.checked ? "1" : ""));
    judge();
    const open = make("button", { type: "button" }, "open");
    open.addEventListener("click", () => {
      input.value = "open";
      input.dispatchEvent(new Event("input"));
    });
    const label = make("label", { for: id }, `Read, ${row.blank || "with its unit"}`);
    const field = make("div.blank", label, input, row.unit === "Ω" ? open : "");
    // What no meter reads has a box alone.
    const reading = UNITS.has(row.unit) ? [field, said] : [];
    const warn = row.warn ? make("p.danger", row.warn) : "";
    const probes = make("p", make("b", "Probes: "), row.probes);
    const must = make("p.must", make("b", "Must read: "), row.must);
    const head = [warn, make("h3.mark", `${row.no} ${row.what}`), make("p", row.state)];
    return make("li", ...head, probes, must, ...reading, tick);
  }
  function sheet(stages, survey) {
    return stages.flatMap((stage, at) => [
      make("h3", `Stage ${at + 1}: ${stage.title}`),
      make("ul", ...stage.how.map((line) => make("li", line))),
      make("ul.facts", ...stage.rows.map((row) => blank(survey, row))),
    ]);
  }

  // The file: each survey's readings as its `as_left` has them. JSON's quotes are quotes of YAML too.
  function saved() {
    const [date, by, meter] = ["date", "by", "meter"].map((what) => get(`wirelore readings ${what}`).trim());
    const out = ["# Readings typed on the phone. Bring each survey's back: wirelore readings SURVEY FILE", "readings:"];
    const wrong = [];
    for (const one of packs) {
      const rows = [];
      for (const row of JSON.parse(one.dataset.rows).flatMap((stage) => stage.rows)) {
        const text = get(keyOf(one.dataset.survey, row, "read"));
        const done = get(keyOf(one.dataset.survey, row, "done")) !== "";
        const it = text.trim() === "" ? null : read(text, row);
        if (text.trim() !== "" && it === null) wrong.push(`${one.dataset.survey} ${row.no}`);
        if (it === null && !done) continue;
        const read = it ? `, ${it.key}: ${it.text}` : "";
        const [no, what] = [JSON.stringify(row.no), JSON.stringify(row.what)];
        rows.push(`      - { row: ${no}, what: ${what}${read}${done ? ", done: true" : ""} }`);
      }
      if (rows.length === 0) continue;
      out.push(`  ${JSON.stringify(one.dataset.survey)}:`, `    date: ${date}`);
      if (by) out.push(`    by: ${JSON.stringify(by)}`);
      if (meter) out.push(`    meter: ${JSON.stringify(meter)}`);
      out.push("    readings:", ...rows);
    }
    return { text: `${out.join("\n")}\n`, count: out.length - 2, wrong, date };
  }
  function save(said) {
    const { text, count, wrong, date } = saved();
    const say = (words) => (said.textContent = words);
    if (!/^\d{4}-\d\d-\d\d$/.test(date)) return say("Type the day of the readings first.");
    if (wrong.length > 0) return say(`Not saved: no reading in ${wrong.join(", ")}. ${SAID.wrong}`);
    if (count === 0) return say("Nothing is filled in yet.");
    const url = URL.createObjectURL(new Blob([text], { type: "application/yaml" }));
    make("a", { href: url, download: `readings-${date}.yaml` }).click();
    setTimeout(() => URL.revokeObjectURL(url), 60_000);
    return say(`Saved as readings-${date}.yaml. What was typed stays here too.`);
  }
  function saving() {
    const field = (what, label, type) => {
      const input = make("input", { id: `readings-${what}`, type, autocomplete: "off" });
      input.value = get(`wirelore readings ${what}`);
      input.addEventListener("input", () => set(`wirelore readings ${what}`, input.value));
      return make("div.field", make("label", { for: input.id }, label), input);
    };
    const said = make("p", { role: "status", id: "saved" });
    const button = make("button", { type: "button", id: "save" }, "Save the readings as a file");
    button.addEventListener("click", () => save(said));
    const date = field("date", "Day of the readings *", "date");
    const others = [field("by", "Read by", "text"), field("meter", "Meter", "text")];
    return make("section.saving", make("h2", "Readings"), date, ...others, button, said);
  }
  const WARNING = "This browser keeps nothing for a page opened as a file: save the readings before you close it.";
  const warned = () => (refused ? [make("p.danger", WARNING)] : []);

  function showPack() {
    const { survey } = pack.dataset;
    const body = filled(pack.content.cloneNode(true));
    const stages = JSON.parse(pack.dataset.rows);
    const own = `wirelore tick ${survey}: `;
    for (const box of body.querySelectorAll(".tick > input")) {
      const key = `${own}${box.id} ${box.closest("li, tr").textContent}`;
      box.checked = get(key) !== "";
      box.addEventListener("change", () => set(key, box.checked ? "1" : ""));
    }
    const [title] = body.querySelectorAll("h1");
    const paper = body.querySelector("section.test-sheet");
    const first = [...(paper?.querySelectorAll(":scope > ul:first-of-type") ?? [])];
    const form = make("section", { id: "test-sheet" }, make("h2", "Test sheet"), ...first, ...sheet(stages, survey));
    if (paper) paper.replaceWith(form);
    else body.append(form);
    // The sections close, so that a thumb finds them; the links within a pack open the one they lead to.
    for (const section of body.querySelectorAll("section")) {
      const head = section.querySelector(":scope > h2");
      if (!head) continue;
      const rest = [...section.childNodes].filter((node) => node !== head);
      section.append(make("details", make("summary", head), ...rest));
    }
    for (const link of body.querySelectorAll('a[href^="#"]')) {
      link.addEventListener("click", (event) => {
        event.preventDefault();
        const to = document.getElementById(link.hash.slice(1));
        for (let at = to; at; at = at.parentElement?.closest("details")) if (at.localName === "details") at.open = true;
        to?.scrollIntoView();
      });
    }
    title?.remove();
    const back = make("p", make("a.back", { href: "#/packs" }, "All packs"));
    view.replaceChildren(back, ...(title ? [title] : []), ...warned(), body, saving());
  }

  if (pack) showPack();
  else {
    const rows = packs.map((one) => {
      const href = `#/pack/${encodeURIComponent(one.dataset.survey)}`;
      const head = make("p.head", make("strong.mark", titleOf(one)));
      return make("li", make("a", { href }, head, make("p.of", one.dataset.survey)));
    });
    view.replaceChildren(make("h1", "Packs"), ...warned(), make("ol", { id: "hits" }, ...rows), saving());
  }
  return "packs";
}
