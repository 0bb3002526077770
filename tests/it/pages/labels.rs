//! Core labels.

use super::demo::{files, text, views};

/// The labels of a page: the words of both halves.
fn labels(html: &str) -> Vec<(String, String)> {
    let words = |half: &str| {
        let mut out = String::new();
        let mut inside = false;
        for c in half.replace("<br>", " ").chars() {
            match c {
                '<' => inside = true,
                '>' => inside = false,
                c if !inside => out.push(c),
                _ => {}
            }
        }
        out
    };
    let each = html.split("<div class=\"label\">").skip(1);
    each.map(|label| {
        let halves: Vec<&str> =
            label.split("<div>").skip(1).map(|half| half.split("</div>").next().unwrap_or("")).collect();
        assert_eq!(halves.len(), 2);
        (words(halves[0]), words(halves[1]))
    })
    .collect()
}

#[test]
fn every_core_of_the_plan_has_a_label_that_reads_from_both_sides() {
    for view in views() {
        let html = text(&files(&view), "pack.html");
        let labels = labels(&html);
        let cores: usize = view.plan.cables.iter().map(|cable| cable.cores.len()).sum();
        assert_eq!(labels.len(), cores, "{}", view.head.survey);
        assert_eq!(view.labels.len(), cores);
        assert!(labels.iter().all(|(first, second)| first == second));
        let planned =
            view.plan.cables.iter().flat_map(|cable| cable.cores.iter().map(move |core| (&cable.cable, core)));
        for ((cable, core), (label, _)) in planned.zip(&labels) {
            let to = match core.to.as_str() {
                "park" => "made safe",
                "leave" => "left there",
                to => to,
            };
            let from = format!("from {} to {to}", core.from).replace('&', "&amp;");
            assert!(label.starts_with(cable.as_str()), "{label}");
            assert!(label.contains(&core.colour) && label.ends_with(&from), "{label}: {from}");
        }
    }
}

#[test]
fn labels_are_the_last_page_and_a_plain_table_in_markdown() {
    for view in views() {
        let pack = files(&view);
        let markdown = text(&pack, "pack.md");
        let section = markdown.split("\n## ").last().expect("a section");
        assert!(section.starts_with("Core labels"), "{}", section.lines().next().unwrap_or(""));
        let rows = section.lines().filter(|line| line.starts_with("| ") && !line.starts_with("| Cable")).count();
        assert_eq!(rows, view.labels.len());
    }
}
