// The calculators of `wirelore figure`: the formulas of src/formula, the numbers of the cards. What is not known is
// null, all the way to the page. `data` is what the program knows of cables, boards and rules.
function makeFigures(data) {
  const finite = (number) => (Number.isFinite(number) ? number : null);
  const or = (value, other) => value ?? other;

  /** Ohms of one metre of one core at its temperature. */
  function wire(q) {
    const cable = data.cables.find(({ id }) => id === q.cable);
    const at20 = q.area > 0 ? data.resistivity / q.area : q.ohms_per_km > 0 ? q.ohms_per_km / 1000 : cable?.ohms;
    const warmer = or(q.temperature, data.ordinary) - data.ordinary;
    return at20 === undefined || at20 === null ? null : at20 * (1 + data.coefficient * warmer);
  }

  function drop(q) {
    if (q.volts === null || q.current === null || q.length === null) return null;
    const [positive, negative] = [or(q.positive, 1), or(q.negative, 1)];
    const lines = [(q.current + or(q.trigger, 0)) / positive + q.current / negative];
    if (q.trigger !== null) lines.push((q.current + q.trigger) / positive + q.trigger);
    const amps = Math.max(...lines);
    const source = q.volts - or(q.supply_drop, 0);
    const ohms = wire(q);
    const volts = ohms === null ? null : finite(source - amps * ohms * q.length);
    const far = q.needs === null || ohms === null ? null : finite((source - q.needs) / (amps * ohms));
    return {
      volts,
      lost: volts === null ? null : source - volts,
      longest: far !== null && far >= 0 ? far : null,
      ok: q.needs === null || volts === null ? null : volts + data.spare >= q.needs,
    };
  }

  function loop(q) {
    const board = data.boards.find(({ id }) => id === q.board);
    if (!board || q.length === null) return null;
    const bands = board.bands[q.wiring];
    const tolerance = or(q.tolerance, board.tolerance);
    const [double, single] = [q.wiring === "double-eol", q.wiring === "single-eol"];
    const [end, alarm] = [or(q.end, double ? board.end : board.single), or(q.alarm, board.alarm)];
    const [sa, st, ohms] = [or(q.series, 0), or(q.tamper_series, 0), wire(q)];
    const isIn = (value, from, to) => (from === null || value >= from) && (to === null || to > value);
    const read = (value) => bands?.find(([, from, to]) => isIn(value, from, to))?.[0] ?? null;
    // The resistors as marked, at the low end of their tolerance on the shortest run, at the high end on the longest.
    const corners = tolerance === null ? [1, null, null] : [1, Math.max(1 - tolerance, 0), 1 + tolerance];
    const at = (work, resistors) => corners.map((factor, corner) => {
      if (ohms === null || (resistors && (factor === null || end === null || (double && alarm === null)))) return null;
      const cable = 2 * ohms * (corner === 1 ? or(q.shortest, q.length) : q.length);
      return finite(work(cable, end * factor, alarm * factor));
    });
    const beside = (a, b) => (a + b > 0 ? (a * b) / (a + b) : 0);
    const closed = (state, values, right = [state]) => ({
      state, open: false, ohms: values[0], low: values[1], high: values[2],
      reads: values[0] === null ? null : read(values[0]),
      ok: !bands || values.includes(null) ? null : values.every((value) => right.includes(read(value))),
    });
    const open = (state) => {
      const reads = read(Infinity);
      return { state, open: true, ohms: null, low: null, high: null, reads, ok: bands ? reads === state : null };
    };
    const short = () => closed("short", [0, 0, 0], ["short", "tamper"]);
    if (double) {
      return [
        closed("normal", at((cable, e, a) => e + cable + beside(a, sa) + st, true)),
        closed("alarm", at((cable, e, a) => e + a + cable + st, true)), open("tamper"), short(),
      ];
    }
    if (single) return [closed("normal", at((cable, e) => e + cable + sa, true)), open("alarm"), short()];
    return [closed("normal", at((cable) => cable + sa, false)), open("alarm")];
  }

  function battery(q) {
    const rules = data.rules.find(({ id }) => id === q.rules);
    const grade = rules?.grades.find((one) => one.grade === q.grade);
    if (!grade || q.standby === null || q.alarm === null) return null;
    const hours = q.reported ? grade.reported : grade.standby;
    const factor = between(rules.temperature, or(q.temperature, data.ordinary));
    const known = [hours, grade.alarm, rules.ageing, rules.peukert, factor].every((value) => value !== null);
    const faster = (amps, capacity) => Math.max((amps / (capacity / data.ratedHours)) ** (rules.peukert - 1), 1);
    const phase = (amps, time, capacity) => (amps > 0 && time > 0 ? amps * time * faster(amps, capacity) : 0);
    const both = (capacity) => phase(q.standby, hours, capacity) + phase(q.alarm, grade.alarm, capacity);
    const required = (capacity) => (known ? finite((both(capacity) * rules.ageing) / factor) : null);
    const enough = (capacity) => (required(capacity) === null ? null : capacity + data.spare >= required(capacity));
    const sizes = data.stock.map(([size]) => size).sort((a, b) => a - b);
    const smallest = sizes.find((size) => enough(size)) ?? null;
    const fitted = or(q.capacity, or(smallest, Math.max(...sizes)));
    const recharge = q.charge === null ? null : finite((data.recharged * fitted) / (data.chargeKept * q.charge));
    return {
      required: required(fitted), fitted, enough: enough(fitted), smallest, hours, alarmHours: grade.alarm, recharge,
      limit: grade.recharge,
      inTime: recharge === null || grade.recharge === null ? null : grade.recharge + data.spare >= recharge,
    };
  }
  // On straight lines between points in rising order, flat outside them.
  function between(points, x) {
    if (points.length === 0) return null;
    if (points[0][0] >= x) return points[0][1];
    const at = points.findIndex(([to], k) => k > 0 && to >= x);
    if (at === -1) return points.at(-1)[1];
    const [[x0, y0], [x1, y1]] = [points[at - 1], points[at]];
    return finite(y0 + ((y1 - y0) * (x - x0)) / (x1 - x0));
  }
  return { drop, loop, battery };
}

// The page of the calculators. A field: its name, its words, its unit; a bracket where it may be left empty.
function showFigures(view, make, data) {
  const figures = makeFigures(data);
  // Fields that several forms have.
  const CORES = [
    ["cable", "Cable", data.cables.map(({ id }) => id)],
    ["area", "or copper of one core", "mm²", 1],
    ["ohms_per_km", "or one core's ohms for 1 km", "Ω", 1],
    ["length", "Length, one way", "m"],
  ];
  const WARM = ["temperature", "Temperature; empty: 20", "°C", 1];
  const DROP = [
    ["volts", "Volts of the source", "V"],
    ["current", "Current in alarm", "A"],
    ["trigger", "Trigger fired by negative", "A", 1],
    ...CORES,
    ["positive", "Positive cores; empty: 1", "", 1],
    ["negative", "Negative cores; empty: 1", "", 1],
    ["supply_drop", "Lost in the board's supply", "V", 1],
    ["needs", "Volts that it needs", "V", 1],
    WARM,
  ];
  const LOOP = [
    ["wiring", "Wiring", ["closed-loop", "single-eol", "double-eol"]],
    ["board", "Board", data.boards.map(({ id }) => id)],
    ...CORES,
    ["shortest", "Shortest run; empty: the same", "m", 1],
    ["series", "In series with the alarm contact", "Ω", 1],
    ["tamper_series", "In series with the tamper contact", "Ω", 1],
    ["end", "End-of-line resistor; empty: the board's", "Ω", 1],
    ["alarm", "Across the alarm contact; empty: the board's", "Ω", 1],
    ["tolerance", "Tolerance; empty: the board's", "%", 1],
    WARM,
  ];
  const BATTERY = [
    ["standby", "Current at rest", "A"],
    ["alarm", "Current in alarm", "A"],
    ["rules", "Rules", data.rules.map(({ id }) => id)],
    ["grade", "Grade", [...new Set(data.rules.flatMap(({ grades }) => grades.map((one) => one.grade)))]],
    ["reported", "Mains failure is signalled away", true],
    ["capacity", "Capacity; empty: the smallest in stock", "Ah", 1],
    ["charge", "Charging current", "A", 1],
    WARM,
  ];
  const known = (value, unit, places = 3) => {
    return value === null ? "not known" : `${Number(value.toFixed(places))} ${unit}`;
  };
  const holds = (ok) => (ok === null ? "not known" : ok ? "yes" : "NO");
  const dropTold = (it) => [
    ["Volts there", known(it.volts, "V")],
    ["Lost", known(it.lost, "V")],
    ["Enough", holds(it.ok)],
    ["Longest run", known(it.longest, "m", 1)],
  ];
  const loopTold = (it) => it.map((state) => {
    const ohms = (value) => known(value, "Ω", 2);
    const range = state.open || state.low === null ? "" : `, ${ohms(state.low)} to ${ohms(state.high)}`;
    const reads = `board reads ${state.reads ?? "nothing that is defined"}; as it should: ${holds(state.ok)}`;
    return [state.state, `${state.open ? "open" : ohms(state.ohms)}${range}; ${reads}`];
  });
  const batteryTold = (it) => {
    const back = `${known(it.recharge, "h", 1)}; within ${known(it.limit, "h")}: ${holds(it.inTime)}`;
    return [
      ["Needed", known(it.required, "Ah")],
      ["For a battery of", known(it.fitted, "Ah")],
      ["Enough", holds(it.enough)],
      ["Smallest in stock", it.smallest === null ? "none is enough" : known(it.smallest, "Ah")],
      ["Asked", `${known(it.hours, "h")}, then ${known(it.alarmHours, "h", 4)} in alarm`],
      ["Back at 80 % in", it.recharge === null ? "no charging current typed" : back],
    ];
  };
  const forms = [
    ["drop", "Volts at the far end", DROP, dropTold],
    ["loop", "A loop", LOOP, loopTold],
    ["battery", "A battery", BATTERY, batteryTold],
  ];
  // What may stand behind a number instead of the field's own unit.
  const OTHERS = {
    A: { mA: 0.001 }, V: { mV: 0.001 }, "Ω": { ohm: 1, k: 1000, "kΩ": 1000 }, "mm²": { mm2: 1 }, "°C": { C: 1 },
  };
  function number(text, unit) {
    const [, digits, other] = /^([+-]?(?:\d+\.?\d*|\.\d+))\s*(\S*)$/u.exec(text.trim().replace(",", ".")) ?? [];
    const times = other === "" || other === unit ? 1 : OTHERS[unit]?.[other];
    return (Number(digits) * (times ?? NaN)) / (unit === "%" ? 100 : 1);
  }
  view.replaceChildren(make("h1", "Figures"), ...forms.map((form) => calculator(...form)));
  view.querySelector("details").open = true;
  return "figures";

  function calculator(name, title, fields, told) {
    const form = make("form.figure", { id: name });
    for (const text of data.cautions[name]) form.append(make("p.danger", text));
    form.append(...fields.map(field));
    const answer = make("output.answer");
    form.append(answer);
    form.addEventListener("submit", (event) => event.preventDefault());
    form.addEventListener("input", work);
    work();
    return make("section", make("details", make("summary", make("h2", title)), form));

    function field([key, label, unit, optional]) {
      const id = `${name}-${key}`;
      const box = () => make("input", { type: "checkbox", id, name: key });
      if (unit === true) return make("label.tick", { for: id }, box(), ` ${label}`);
      const choice = () => make("select", { id, name: key }, ...unit.map((word) => make("option", word)));
      const number = () => make("input", { id, name: key, inputmode: "decimal", autocomplete: "off" });
      const measured = Array.isArray(unit) || unit === "" ? label : `${label}, ${unit}`;
      const head = make("label", { for: id }, `${measured}${optional ? "" : " *"}`);
      return make("div.field", head, Array.isArray(unit) ? choice() : number());
    }
    function work() {
      const q = {};
      const wrong = [];
      for (const [key, label, unit] of fields) {
        const control = form.querySelector(`[name="${key}"]`);
        if (unit === true) q[key] = control.checked;
        else if (Array.isArray(unit)) q[key] = control.value;
        else q[key] = control.value.trim() === "" ? null : number(control.value, unit);
        const below = key !== "temperature" && 0 > q[key];
        const isCores = (key === "positive" || key === "negative") && q[key] !== null;
        const cores = isCores && !(Number.isInteger(q[key]) && q[key] > 0);
        if (typeof q[key] === "number" && (!Number.isFinite(q[key]) || below || cores)) wrong.push(label);
      }
      if (q.shortest > q.length) wrong.push("Shortest run");
      const it = wrong.length > 0 ? null : figures[name](q);
      const due = wrong.length > 0 ? `A number is due: ${wrong.join("; ")}` : "Fill in what has a star.";
      const rows = it ? told(it) : [["", due]];
      answer.dataset.value = JSON.stringify(it);
      answer.replaceChildren(...rows.map(([head, text]) => make("p", make("b", head && `${head}: `), text)));
    }
  }
}
