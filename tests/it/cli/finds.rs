//! `find` and `show`.

use super::run::{folder, run};
use serde_json::Value;
use std::ffi::OsString;

fn json(args: &[&str]) -> (Option<i32>, Value) {
    let ran = run(folder().path(), args);
    (ran.code, serde_json::from_str(&ran.out).unwrap_or_else(|e| panic!("{e}: {ran:?}")))
}

#[test]
fn json_has_the_fields_that_other_programs_read() {
    let (code, found) = json(&["find", "STB", "--card", "merrowby-mb6", "--kind", "terminal,siren", "--json"]);
    assert_eq!(code, Some(0));
    assert_eq!(found["query"], "STB");
    let hits = found["hits"].as_array().expect("hits");
    assert!(!hits.is_empty());
    for hit in hits {
        assert_eq!(hit["card"], "merrowby-mb6");
        assert!(["terminal", "siren"].contains(&hit["kind"].as_str().expect("a kind")));
        assert!(hit["title"].is_string() && hit["text"].is_string() && hit["score"].is_number());
    }
    assert_eq!(hits[0]["mark"], "STB");
}

#[test]
fn a_hit_without_a_mark_says_null() {
    let (_, found) = json(&["find", "4410-B", "--kind", "marking", "--json"]);
    assert_eq!(found["hits"][0]["mark"], Value::Null);
}

#[test]
fn the_opposite_sign_comes_last_and_says_so() {
    let (_, found) = json(&["find", "AUX-", "--json", "--limit", "100"]);
    let hits = found["hits"].as_array().expect("hits");
    let signs: Vec<(bool, bool)> =
        hits.iter().map(|h| (h["mark"] == "AUX+", h["opposite"].as_bool().expect("a flag"))).collect();
    assert!(signs.contains(&(true, true)) && !signs.contains(&(true, false)), "{signs:?}");
    assert!(signs.iter().map(|(_, opposite)| *opposite).is_sorted(), "{signs:?}");
    let scores: Vec<f64> = hits.iter().map(|h| h["score"].as_f64().expect("a score")).collect();
    assert!(scores.windows(2).all(|pair| pair[0] >= pair[1]), "{scores:?}");
    let ran = run(folder().path(), &["find", "AUX-", "mb6"]).ends(0);
    assert!(ran.out.contains("opposite sign: asked AUX-, this is AUX+."), "{}", ran.out);
}

#[test]
fn a_slip_is_told_and_an_unknown_mark_too() {
    let (_, found) = json(&["find", "strbe", "ZZ9", "mb6", "--json"]);
    assert_eq!(found["hits"][0]["mark"], "STB");
    assert_eq!(found["read_as"][0]["read"][0], "strobe");
    assert_eq!(found["missing"][0], "ZZ9");
    let ran = run(folder().path(), &["find", "SRT"]).ends(1);
    assert!(ran.err.contains("Nothing found for \"SRT\"") && ran.err.contains("DC volts"), "{ran:?}");
}

#[test]
fn nothing_found_is_one_and_offers_what_is_near() {
    let ran = run(folder().path(), &["find", "STBB"]).ends(1);
    assert!(ran.out.is_empty() && ran.err.contains("STB"), "{ran:?}");
    let (code, found) = json(&["find", "qqqqqq", "--json"]);
    assert_eq!((code, found["hits"].as_array().map(Vec::len)), (Some(1), Some(0)));
    let card = run(folder().path(), &["find", "STB", "--card", "merowby-mb6"]).ends(1);
    assert!(card.err.contains("merrowby-mb6"), "{card:?}");
}

#[test]
fn text_says_what_it_does_before_danger_volts_fuse_and_source() {
    let ran = run(folder().path(), &["find", "S+", "--card", "merrowby-mb6", "--kind", "terminal"]).ends(0);
    let at = |word: &str| ran.out.find(word).unwrap_or_else(|| panic!("{word}: {}", ran.out));
    let order = [at("hold-off positive"), at("Danger:"), at("Volts:"), at("Fuse: F2"), at("Known:")];
    assert!(order.is_sorted(), "{}", ran.out);
}

#[test]
fn questions_may_begin_with_a_sign() {
    for question in [&["find", "-A"][..], &["find", "-12V", "x"], &["find", "-"], &["find", "--", "--json"]] {
        let ran = run(folder().path(), question);
        assert!(matches!(ran.code, Some(0 | 1)), "{question:?}: {ran:?}");
    }
}

#[test]
#[cfg(unix)]
fn any_bytes_are_a_question() {
    use std::os::unix::ffi::OsStringExt;
    for bytes in [&b"\xff\xfe"[..], b"STB\xff", b"\x80", b"-\xff", b"\xf0\x9f"] {
        let args = vec![OsString::from("find"), OsString::from_vec(bytes.to_vec()), OsString::from("--json")];
        let ran = run(folder().path(), &args);
        assert!(matches!(ran.code, Some(0 | 1)), "{bytes:?}: {ran:?}");
        assert!(serde_json::from_str::<Value>(&ran.out).is_ok());
    }
}

#[test]
fn the_same_question_gives_the_same_bytes() {
    let ask = || run(folder().path(), &["find", "sounder strobe fuse", "--limit", "100", "--json"]).out;
    assert_eq!(ask(), ask());
}

#[test]
fn show_lists_every_terminal_in_board_order_with_cautions_first() {
    let ran = run(folder().path(), &["show", "merrowby-mb6"]).ends(0);
    let lines: Vec<&str> = ran.out.lines().collect();
    assert!(lines[1].contains("CAUTION"), "{}", ran.out);
    let marks: Vec<&str> = lines
        .iter()
        .skip_while(|l| !l.starts_with("Terminals"))
        .skip(2)
        .take_while(|l| !l.is_empty())
        .filter_map(|l| l.split_whitespace().next())
        .collect();
    assert_eq!(marks[..6], ["L", "N", "E", "BAT+", "BAT-", "AUX+"]);
    assert!(ran.out.contains("confirmed (") && ran.out.contains("Notes of earlier jobs"), "{}", ran.out);
}

#[test]
fn show_takes_every_kind_of_card_and_every_card_of_the_library() {
    let dir = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("library");
    for folder_name in ["panels", "boards", "supplies", "devices", "cables"] {
        for name in super::run::names(&dir.join(folder_name)) {
            let id = name.trim_end_matches(".yaml");
            let ran = run(folder().path(), &["show", id]).ends(0);
            assert!(ran.out.contains(id) && ran.err.is_empty(), "{ran:?}");
        }
    }
}

#[test]
fn an_unknown_card_is_one_with_the_nearest() {
    let ran = run(folder().path(), &["show", "fenick-f8"]).ends(1);
    assert!(ran.err.contains("Did you mean fennick-f8"), "{ran:?}");
}
