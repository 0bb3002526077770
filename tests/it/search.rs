//! The search room: signs, marks, rings, fuses, hostile questions.

mod labelled;
mod library;

use library::library;
use proptest::prelude::*;
use wirelore::search::{Hit, Index, Kind, Question, Side, Sign};

fn index() -> Index {
    Index::build(&library()).expect("a library is indexed")
}

/// The index of the demo library.
fn demo() -> Index {
    let library = wirelore::check::library(&wirelore::source::Files::embedded()).value;
    Index::build(&library).expect("a library is indexed")
}

fn ask(index: &Index, words: &str) -> Vec<Hit> {
    find(index, &Question { words: words.to_string(), limit: 10, ..Question::default() })
}

fn find(index: &Index, question: &Question) -> Vec<Hit> {
    index.find(question).expect("a question is answered")
}

fn marks(hits: &[Hit]) -> Vec<&str> {
    hits.iter().filter_map(|h| h.mark.as_deref()).collect()
}

#[test]
fn an_exact_mark_comes_first_with_its_sign() {
    let index = index();
    for mark in ["A+", "A-", "STB-", "H/O+", "0V", "Z1C", "F2", "LK2", "-12V", "TB1:3", "+", "-", "D", "D1"] {
        let hits = ask(&index, mark);
        assert_eq!(hits.first().and_then(|h| h.mark.as_deref()), Some(mark), "{mark}: {hits:#?}");
    }
}

#[test]
fn marks_are_found_however_they_are_typed() {
    let index = index();
    for (typed, mark) in [
        ("a-", "A-"),
        ("A\u{2212}", "A-"),
        ("A\u{2013}", "A-"),
        ("A -", "A-"),
        ("h o+", "H/O+"),
        ("ho+", "H/O+"),
        ("z-1-c", "Z1C"),
        ("Z 1C", "Z1C"),
        ("tb1.3", "TB1:3"),
        ("tb1 3", "TB1:3"),
        ("\u{2212}12v", "-12V"),
        ("12V-", "-12V"),
        ("-A", "A-"),
    ] {
        assert_eq!(ask(&index, typed).first().and_then(|h| h.mark.as_deref()), Some(mark), "{typed}");
    }
}

#[test]
fn the_opposite_sign_is_never_above_the_asked_one() {
    let index = index();
    for (words, asked, opposite) in [
        ("A-", "A-", "A+"),
        ("A+", "A+", "A-"),
        ("what is the detector voltage out on A-", "A-", "A+"),
        ("alder A+ detectors 12 V out", "A+", "A-"),
        ("BELL-", "STB-", "STB+"),
        ("-", "-", "+"),
    ] {
        let hits = find(&index, &Question { words: words.to_string(), limit: 100, ..Question::default() });
        let marks = marks(&hits);
        let at = |mark: &str| marks.iter().position(|m| *m == mark);
        assert!(at(asked).is_some(), "{words}: {marks:?}");
        let first_opposite = at(opposite).unwrap_or(usize::MAX);
        let last_asked = marks.iter().rposition(|m| *m == asked).unwrap_or(0);
        assert!(last_asked < first_opposite, "{words}: {marks:?}");
    }
}

#[test]
fn what_switches_a_side_belongs_to_it_and_is_never_called_it() {
    let index = demo();
    for (card, mark, sign, told) in [
        ("merrowby-mb6", "STB", Sign::Minus, "negative-applied"),
        ("dunmarrow-d10", "LAMP", Sign::Plus, "positive-applied"),
        ("tarnholt-t5", "C", Sign::Minus, "negative-removed"),
        ("tarnholt-t9", "D", Sign::Plus, "positive-removed"),
        ("merrowby-mb6", "STR", Sign::Minus, "returns negative"),
        ("merrowby-mb8e", "TR", Sign::Plus, "returns positive"),
        ("fennick-f8", "OUT2", Sign::Minus, "switches to negative"),
        ("merrowby-mb6", "S0", Sign::Minus, "negative"),
    ] {
        let question = |words: String| Question { words, card: Some(card.into()), limit: 40, ..Question::default() };
        let hits = find(&index, &question(mark.to_string()));
        let of_it: Vec<&Hit> = hits.iter().filter(|hit| hit.mark.as_deref() == Some(mark)).collect();
        assert!(!of_it.is_empty(), "{card} {mark}");
        for hit in of_it {
            assert_eq!(hit.side.map(Side::told), Some(told), "{card} {mark}: {hit:?}");
            assert_eq!(hit.with_side(), format!("{mark}, {told}"));
        }
        for asked in [sign, sign.opposite()] {
            let hits = find(&index, &question(format!("{mark} {}", asked.word())));
            let first = hits.iter().find(|hit| hit.mark.as_deref() == Some(mark)).expect("it is found");
            assert_eq!(first.is_opposite, asked != sign, "{card} {mark} {}", asked.word());
        }
    }
}

#[test]
fn a_device_belongs_to_the_side_that_all_its_triggers_fire_by() {
    let index = demo();
    for (card, told) in [
        ("external-sounder", Some("fired by negative")),
        ("bell-box", Some("fired by positive")),
        ("external-sounder-positive-removed", Some("fired by positive")),
        ("motion-detector", None),
    ] {
        let words = card.to_string();
        let question = Question { words, card: Some(card.into()), kinds: vec![Kind::Card], limit: 1 };
        let hits = find(&index, &question);
        assert_eq!(hits.first().map(|hit| hit.side.map(Side::told)), Some(told), "{card}");
    }
}

#[test]
fn a_mark_that_is_a_card_too_is_that_card_where_no_fact_has_all() {
    let index = demo();
    // T5 is the tamper of zone 5 on a panel of that name.
    let hits = ask(&index, "T5 strobe trigger plus");
    assert!(hits.iter().all(|hit| hit.card == "tarnholt-t5" && hit.is_opposite), "{hits:?}");
    assert_eq!(hits.first().and_then(|hit| hit.mark.as_deref()), Some("F"));
    assert_eq!(ask(&index, "T5").first().and_then(|hit| hit.mark.as_deref()), Some("T5"));
    // It has no zone 3 by that mark, so those that have one are better than nothing.
    assert_eq!(ask(&index, "T5 Z3").first().and_then(|hit| hit.mark.as_deref()), Some("Z3"));
}

#[test]
fn a_mark_without_its_sign_finds_both() {
    let hits = ask(&index(), "A");
    assert!(marks(&hits).contains(&"A+") && marks(&hits).contains(&"A-"), "{hits:#?}");
}

#[test]
fn rings_stand_for_each_other_both_ways() {
    let index = index();
    for (asked, found) in
        [("flash", "STB-"), ("beacon", "STB-"), ("hold", "H/O+"), ("h/o", "H/O+"), ("hold off", "H/O+")]
    {
        assert!(marks(&ask(&index, asked)).contains(&found), "{asked}");
    }
    let texts: Vec<String> = ask(&index, "stb").into_iter().map(|h| h.text).collect();
    assert!(texts.iter().any(|t| t.contains("flasher idles")), "{texts:?}");
}

#[test]
fn a_question_about_a_fuse_leads_to_the_fuse() {
    let index = index();
    for words in ["which fuse guards the sounder", "fuse for A", "12 V outputs fuse", "fuses detectors"] {
        let hits = ask(&index, words);
        assert_eq!(hits.first().and_then(|h| h.mark.as_deref()), Some("F2"), "{words}: {hits:#?}");
    }
    let hit = ask(&index, "A+").into_iter().next().expect("A+ is there");
    assert_eq!(hit.fuse.as_deref(), Some("F2 (1 A F 5x20)"));
    assert_eq!(hit.volts.as_deref(), Some("13.2 V to 14.2 V"));
    assert_eq!(hit.known.as_deref(), Some("measured (manual p.6; bench, measured)"));
    assert_eq!(ask(&index, "A-").first().and_then(|h| h.volts.clone()).as_deref(), Some("not known"));
}

#[test]
fn every_kind_is_found_and_kept_to() {
    let index = index();
    for kind in Kind::ALL {
        let words = "alder mains sounder hold-off zone tamper silent 4410-B heat sink flasher fuse";
        let question = Question { words: words.to_string(), kinds: vec![kind], limit: 50, card: None };
        let hits = find(&index, &question);
        assert!(!hits.is_empty(), "{kind:?}");
        assert!(hits.iter().all(|h| h.kind == kind), "{kind:?}: {hits:#?}");
    }
}

#[test]
fn a_card_is_kept_to_and_a_name_leads_to_its_card() {
    let index = index();
    let question = Question { words: "A+".into(), card: Some("birch-2".into()), limit: 10, kinds: Vec::new() };
    assert!(find(&index, &question).iter().all(|h| h.card == "birch-2"));
    for words in ["Alder A9", "a9", "alder-a9", "4410-B ISS 3"] {
        let hits = ask(&index, words);
        assert_eq!(hits.first().map(|h| h.card.as_str()), Some("alder-a9"), "{words}: {hits:#?}");
    }
    let first = ask(&index, "birch fuse F2").into_iter().next().expect("F2 is there");
    assert_eq!((first.card.as_str(), first.mark.as_deref()), ("birch-2", Some("F2")));
}

#[test]
fn dangers_are_said() {
    let index = index();
    for (words, danger) in [
        ("L", "mains voltage"),
        ("H/O+", "self-activating"),
        ("BAT+", "can't be switched off"),
        ("STB-", "xenon"),
        ("A+", "stays hot"),
    ] {
        let hit = ask(&index, words).into_iter().find(|h| h.kind == Kind::Terminal).expect("a terminal");
        assert!(hit.danger.as_deref().unwrap_or_default().contains(danger), "{words}: {hit:#?}");
    }
    let quiet = ask(&index, "Z1C").into_iter().next().expect("Z1C is there");
    assert_eq!(quiet.danger, None);
}

#[test]
fn what_is_not_known_is_found_as_not_known() {
    let hits = ask(&index(), "birch sounder wiring");
    assert!(hits.iter().any(|h| h.kind == Kind::Siren && h.text.contains("not known")), "{hits:#?}");
}

#[test]
fn equal_hits_come_by_card_and_limits_hold() {
    let index = index();
    let hits = ask(&index, "F2");
    let cards: Vec<&str> = hits.iter().filter(|h| h.kind == Kind::Fuse).map(|h| h.card.as_str()).collect();
    assert_eq!(cards, ["alder-a9", "birch-2"]);
    let limited = |limit| find(&index, &Question { words: "A+".into(), limit, ..Question::default() });
    assert_eq!(limited(1).len(), 1);
    assert!(limited(0).is_empty());
    assert!(limited(usize::MAX).len() > 1);
    assert_eq!(
        format!("{:?}", limited(50)),
        format!("{:?}", find(&self::index(), &Question { words: "A+".into(), limit: 50, ..Question::default() }))
    );
}

#[test]
fn the_terminal_comes_before_what_is_said_about_it() {
    let kinds: Vec<Kind> = ask(&index(), "STB-").into_iter().take(3).map(|h| h.kind).collect();
    assert_eq!(kinds, [Kind::Terminal, Kind::Siren, Kind::Note]);
}

#[test]
fn every_mark_of_the_demo_library_is_found_first_with_its_sign() {
    let library = wirelore::check::library(&wirelore::source::Files::embedded()).value;
    let index = Index::build(&library).expect("a library is indexed");
    let mut asked = 0;
    for id in library.panels.keys().chain(library.boards.keys()).chain(library.supplies.keys()) {
        let unit = library.card(id).and_then(wirelore::model::Card::unit).expect("it has screws");
        let marks = unit.terminals.iter().map(|t| &t.mark).chain(unit.fuses.iter().map(|f| &f.mark));
        for mark in marks.chain(unit.links.iter().map(|l| &l.mark)) {
            let question =
                Question { words: mark.clone(), card: Some(id.clone()), limit: usize::MAX, kinds: Vec::new() };
            let hits = find(&index, &question);
            assert_eq!(hits.first().and_then(|h| h.mark.as_ref()), Some(mark), "{id}: {hits:#?}");
            let everywhere = find(&index, &Question { card: None, ..question });
            let swapped = mark.replace('+', "\0").replace('-', "+").replace('\0', "-");
            let at = |wanted: &str, last: bool| {
                let is_it = |h: &Hit| h.mark.as_deref() == Some(wanted);
                if last { everywhere.iter().rposition(is_it) } else { everywhere.iter().position(is_it) }
            };
            let last = at(mark, true).expect("it is found");
            let opposite = at(&swapped, false).filter(|_| swapped != *mark);
            assert!(opposite.is_none_or(|at| at > last), "{mark}: {everywhere:#?}");
            asked += 1;
        }
    }
    assert!(asked > 200, "{asked}");
}

#[test]
fn nothing_found_offers_the_nearest_marks() {
    let index = index();
    let near = |words: &str, card: Option<&str>| {
        let question = Question { words: words.into(), card: card.map(str::to_string), limit: 10, kinds: Vec::new() };
        assert!(find(&index, &question).is_empty(), "{words}");
        index.nearest_marks(&question).expect("marks are read")
    };
    assert_eq!(near("LK22", None), ["LK2"]);
    assert!(near("LK22", Some("birch-2")).is_empty());
    assert!(near("qqqqqqqq", None).is_empty());
}

#[test]
fn an_empty_library_and_an_empty_question_find_nothing() {
    let empty = Index::build(&wirelore::model::Library::default()).expect("an empty library is indexed");
    assert!(ask(&empty, "A+").is_empty());
    for words in ["", " ", "()", "\u{0}", "\u{200b}"] {
        assert!(ask(&index(), words).is_empty(), "{words:?}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn any_question_is_answered(words in ".{0,60}", limit in 0usize..20) {
        thread_local!(static INDEX: Index = index());
        INDEX.with(|index| {
            let question = Question { words: words.clone(), limit, ..Question::default() };
            prop_assert!(find(index, &question).len() <= limit);
            index.nearest_marks(&question).expect("marks are read");
            Ok(())
        })?;
    }

    #[test]
    fn any_mix_of_marks_signs_and_syntax_is_answered(
        parts in prop::collection::vec(prop::sample::select(vec![
            "A+", "A-", "-A", "(", ")", "\"", "TB1:3", "AND", "OR", "NOT", "*", "~2", "[a TO b]", "^5", "card:", "\\",
            "STB-", "+", "-", "\u{2212}", "mark:A+", "🔥", "{", "/x/", "'", "\0", "h/o",
        ]), 0..60),
    ) {
        thread_local!(static INDEX: Index = index());
        INDEX.with(|index| ask(index, &parts.join(" ")));
    }
}
