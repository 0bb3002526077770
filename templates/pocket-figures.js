// The calculators, with the formulas of src/formula.
function showFigures(view, make) {
  view.replaceChildren(make("h1", {}, "Figures"));
  return "figures";
}
