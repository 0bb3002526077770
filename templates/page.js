// Ticks that survive closing the page, and the list of sections. The page works without it.
"use strict";
(() => {
  // One entry of the browser's store for each tick. The survey's id keeps packs apart, for all pages opened as files share
  // one store; the words of the step keep a changed step from inheriting a tick.
  const own = `wirelore tick ${document.body.dataset.survey}: `;
  const boxes = [...document.querySelectorAll(".tick > input")];
  const keys = new Map(boxes.map((box) => [box, `${own}${box.id} ${fingerprint(box.closest("li, tr").textContent)}`]));

  // FNV-1a, 32 bits: enough to tell two wordings of one step apart.
  function fingerprint(text) {
    let hash = 0x811c9dc5;
    for (const letter of text) hash = Math.imul(hash ^ letter.codePointAt(0), 0x01000193);
    return (hash >>> 0).toString(36);
  }

  // A browser may refuse its store, in a private window for one: ticks then last as long as the page is open.
  function store(work) {
    try {
      return work(window.localStorage);
    } catch {
      return undefined;
    }
  }

  const clear = document.getElementById("clear");
  function count() {
    const ticked = boxes.filter((box) => box.checked).length;
    clear.hidden = ticked === 0;
    clear.textContent = ticked === 1 ? "Clear the one tick" : `Clear all ${ticked} ticks`;
  }

  function restore() {
    for (const [box, key] of keys) {
      const kept = store((s) => s.getItem(key) !== null);
      if (kept !== undefined) box.checked = kept;
    }
    count();
  }

  document.addEventListener("change", ({ target }) => {
    const key = keys.get(target);
    if (key === undefined) return;
    store((s) => (target.checked ? s.setItem(key, "1") : s.removeItem(key)));
    count();
  });

  clear.addEventListener("click", () => {
    if (!window.confirm(`${clear.textContent} of this pack?`)) return;
    store((s) => Object.keys(s).filter((key) => key.startsWith(own)).forEach((key) => s.removeItem(key)));
    for (const box of boxes) box.checked = false;
    count();
  });

  // The list of sections closes when it has been used, when something else is touched, and by the Escape key.
  const jump = document.querySelector(".jump");
  document.addEventListener("click", ({ target }) => {
    if (!jump.contains(target) || target.closest("a")) jump.open = false;
  });
  document.addEventListener("keydown", ({ key }) => {
    if (key !== "Escape" || !jump.open) return;
    jump.open = false;
    jump.querySelector("summary").focus();
  });

  // Another window with the same pack may have ticked meanwhile.
  window.addEventListener("storage", restore);
  restore();
})();
