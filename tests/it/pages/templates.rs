//! Templates replaced by a folder's, and their faults.

use super::demo::views;
use std::collections::BTreeMap;
use wirelore::render::{self, TemplateFault, Templates};

/// The program's templates with one replaced.
fn with(name: &str, text: &str) -> Result<Templates, TemplateFault> {
    Templates::with(&BTreeMap::from([(name.to_string(), text.to_string())]))
}

#[test]
fn a_replaced_template_is_used() {
    let templates = with("head.md", "# {{ head.state }} for {{ head.site }}\n").expect("no fault");
    let view = views().remove(0);
    let markdown = render::markdown(&view, &templates).expect("no fault");
    assert!(markdown.starts_with(&format!("# {} for ", view.head.state)), "{}", markdown.lines().next().unwrap_or(""));
    assert!(markdown.contains("## Safety, in order"), "the others stay");
}

#[test]
fn a_syntax_fault_names_file_line_and_column() {
    let fault = with("battery.md", "## Battery\n\n{% if battery.enough %}\nyes\n").expect_err("an open block");
    assert_eq!(fault.file, "battery.md");
    assert!(fault.line.is_some() && fault.column.is_some(), "{fault}");
}

#[test]
fn an_unknown_name_names_file_line_and_column() {
    let templates = with("parked.md", "## Parked\n\nThere are {{ parkd }}.\n").expect("it parses");
    let fault = render::markdown(&views().remove(0), &templates).expect_err("no such name");
    assert_eq!((fault.file.as_str(), fault.line, fault.column), ("parked.md", Some(3), Some(14)), "{fault}");
    assert!(fault.to_string().starts_with("parked.md:3:14: "), "{fault}");
}

#[test]
fn a_missing_template_is_a_fault_too() {
    let fault = with("pack.md", "{% include \"nowhere.md\" %}").map(|t| render::markdown(&views().remove(0), &t));
    let fault = match fault {
        Ok(rendered) => rendered.expect_err("no such template"),
        Err(fault) => fault,
    };
    assert!(fault.to_string().contains("nowhere.md"), "{fault}");
}
