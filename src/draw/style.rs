//! How the shapes look: in a page with the page's own ink and paper, in a file of its own black on white.

use super::colour;
use std::sync::LazyLock;

/// The rules but for the colours of cores.
const RULES: &str = "\
.wiring text{font:12px Arial,Helvetica,\"Liberation Sans\",\"DejaVu Sans\",sans-serif;fill:var(--ink);stroke:none}
.wiring .b{font-weight:700}
.wiring .e{text-anchor:end}
.wiring path,.wiring rect,.wiring circle,.wiring ellipse{fill:none;stroke:var(--ink);stroke-width:1.6;stroke-linejoin:round}
.wiring .p{fill:var(--paper)}
.wiring .d{fill:var(--ink);stroke:none}
.wiring .f{stroke-width:1.2}
.wiring .g{stroke-dasharray:5 4;stroke-width:1}
.wiring .h{stroke-width:.8}
.wiring .t{stroke-width:1.8}
.wiring .t.n{stroke-width:1.2}
.wiring .k{stroke-width:4.4;stroke-linecap:butt}
.wiring .k.n{stroke-width:3}
.wiring .c{stroke-width:2.6;stroke-linecap:butt}
.wiring .c.n{stroke-width:1.5}
.wiring .s{stroke-dasharray:7 7}
";

/// The rules for drawings in a page that sets `--ink` and `--paper`.
#[must_use]
pub fn style() -> String {
    format!("{}{DARK}", rules())
}

/// On a dark screen the writing is light: as an edge it would drown the colour beside it.
const DARK: &str = "@media screen and (prefers-color-scheme:dark){.wiring .k{stroke:#8c8c8c}}\n";

fn rules() -> String {
    format!("{RULES}{}", colour::rules())
}

/// The rules for a drawing in a file of its own.
pub(super) fn on_white() -> &'static str {
    static RULES_ON_WHITE: LazyLock<String> =
        LazyLock::new(|| rules().replace("var(--ink)", "#000").replace("var(--paper)", "#fff"));
    &RULES_ON_WHITE
}
