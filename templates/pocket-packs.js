// The packs.
function showPacks(view, make) {
  view.replaceChildren(make("h1", {}, "Packs"));
  return "packs";
}
