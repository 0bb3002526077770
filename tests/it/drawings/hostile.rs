//! Names that try to break a drawing.

use super::{assert_clear, drawn, shapes::Shapes, xml};
use crate::pages::demo;
use proptest::prelude::*;
use wirelore::draw::Pictures;
use wirelore::model::{Library, Survey};

/// The demo's bakery with every name of it changed by `rename`.
fn renamed(rename: impl Fn(&str) -> String) -> (Library, Survey) {
    let (mut library, surveys) = demo::library();
    let mut survey = surveys.into_iter().find(|s| s.survey == "lantern-bakery").expect("the demo survey");
    for cable in &mut survey.cables {
        cable.cable = rename(&cable.cable);
        cable.to = cable.to.as_deref().map(&rename);
        for served in &mut cable.serves {
            served.item = rename(&served.item);
        }
    }
    for fit in &mut survey.fit {
        fit.item = rename(&fit.item);
    }
    let panel = library.panels.get_mut(&survey.panel).expect("its panel");
    panel.unit.model = panel.unit.model.as_deref().map(&rename);
    (library, survey)
}

const NAMES: [&str; 7] = [
    "<script>alert(1)</script>",
    "\"quoted\" 'single' & </title></svg>",
    "right\u{202e}tfel\u{202c} \u{200f}mark",
    "مرحبا שלום 日本語 🔔🔔🔔",
    "bell\u{7}null\u{0}\u{fffe}",
    "]]> <!-- --> <?xml?>",
    "\u{fdfd}\u{fdfd}",
];

fn each_drawing(library: &Library, survey: &Survey, test: impl Fn(&Pictures)) {
    drawn(library, survey, |_, _, pictures| test(pictures));
}

#[test]
fn hostile_names_break_no_drawing() {
    for name in NAMES {
        let (library, survey) = renamed(|own| format!("{own} {name}"));
        each_drawing(&library, &survey, |pictures| {
            pictures.all().for_each(assert_clear);
            assert!(pictures.all().all(|d| !d.inline().contains("<script")));
        });
    }
}

#[test]
fn a_word_of_five_hundred_letters_is_cut_and_stands_whole_in_the_title() {
    let long = "w".repeat(500);
    let (library, survey) = renamed(|own| format!("{own}{long}"));
    each_drawing(&library, &survey, |pictures| {
        for drawing in pictures.all() {
            assert_clear(drawing);
            let root = xml::read(&drawing.file());
            let cut = Shapes::of(&root).labels.into_iter().filter(|l| l.words.ends_with('…')).count();
            assert!(cut > 0, "{}: something is cut", drawing.key);
            let texts = root.all().into_iter().filter(|e| e.name == "text");
            for text in texts.filter(|t| t.text.ends_with('…')) {
                assert!(text.children.iter().any(|t| t.name == "title" && t.text.contains(&long)), "{}", text.text);
            }
        }
    });
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn any_name_gives_a_drawing_that_reads(name in any::<String>()) {
        let (library, survey) = renamed(|own| format!("{own}{name}"));
        each_drawing(&library, &survey, |pictures| pictures.all().for_each(assert_clear));
    }
}
