//! Tables of text.

use super::{checked, drafted, faults, text};
use proptest::prelude::*;

/// Semicolons, Windows-1252 and carriage returns, a title, headings, a quoted line end, an empty row, a loose row.
pub(super) const GOOD: &[u8] = b"Quayside QX4 - terminals;;;;;\r\n\
Terminal;Description;Volts (V);Current (mA);Fuse;Colour\r\n\
Mains block;;;;;\r\nL;Mains live;;;;\r\nN;Mains neutral;;;;\r\nE;Mains earth;;;;\r\n\
;;;;;\r\nSupply and battery;;;;;\r\n\
AUX+;12 V out to detectors;13.2-14.2;400;F2;red\r\nAUX-;Common negative, 0 \x96 ref;;;;black\r\n\
B+;Standby battery positive;13.7;;F3;\r\nB-;Standby battery negative;;;;\r\n\
External sounder;;;;;\r\nS+;Sounder hold-off positive;;;F2;\r\nS0;Sounder negative;;;;\r\n\
SIR;\"Siren trigger,\nnegative when fired\";;;;blue\r\nSTB;Strobe trigger;;;;yellow\r\n\
STR;Sounder tamper return;;;;\r\n;see page 12;;;;\r\nZ1;Zone 1;;;;\r\nZ1C;Zone 1 return;;;;\r\n\
Terminal;Description;Volts (V);Current (mA);Fuse;Colour\r\nT;Tamper loop;;;;\r\n";

#[test]
fn what_the_table_says_is_taken_over_and_the_rest_is_a_comment() {
    let card = text(GOOD);
    checked(&card);
    for part in [
        "  - mark: AUX+\n    does: \"12 V out to detectors\"\n    # group: supply   # confirm: the table says \"12v out\"\n    volts: [13.2 V, 14.2 V]\n    limit: 400 mA\n    fuse: F2\n    # Colour: red\n",
        "    does: \"Common negative, 0 \u{2013} ref\"\n",
        "    # volts, one figure where low and high are due: 13.7\n",
        "    does: \"Siren trigger, negative when fired\"\n",
        "  # line 8: Supply and battery\n",
        "  # line 20: see page 12\n",
        "fuses:\n  - mark: F2\n    # rating: 1 A",
        "# siren.hold_off? S+ (\"Sounder hold-off positive\")\n",
        "# siren.triggers? SIR (\"Siren trigger, negative when fired\"), STB (\"Strobe trigger\")\n",
    ] {
        assert!(card.contains(part), "{part}\n{card}");
    }
    for never in ["\n    group:", "cite: \"manual p.6\"\n  -", "\nsiren:", "\nsources:"] {
        assert!(!card.contains(never), "{never} is guessed:\n{card}");
    }
}

#[test]
fn a_group_that_the_table_names_in_the_cards_own_word_is_taken_over() {
    let card = text(b"mark,does,group\nA+,feeds,Supply\nS,fires,bells\n");
    assert!(card.contains("    group: supply\n"), "{card}");
    assert!(card.contains("    # the table's group: bells\n    # group: siren   # confirm"), "{card}");
    checked(&card);
}

#[test]
fn separators_marks_of_order_and_encodings() {
    for table in [
        "mark;does\nA+;x\n".as_bytes().to_vec(),
        "\u{feff}mark,does\r\nA+,x\r\n".into(),
        "mark\tdoes\nA+\tx\n".into(),
        "sep=;\nmark;does\nA+;x\n".into(),
        "\u{feff}mark\tdoes\nA+\tx\n".encode_utf16().flat_map(u16::to_le_bytes).collect(),
        "\n\n;;\nmark;does\n\n;\nA+;x\n".into(),
    ] {
        let card = text(&table);
        assert!(card.contains("  - mark: A+\n    does: \"x\"\n"), "{card}");
        checked(&card);
    }
}

#[test]
fn wrong_cells_are_told_with_their_places_and_all_at_once() {
    let told = faults("mark,volts,current\nA+,\"13,2 V\",\nspare,,\nA-,,400\nA+,,\n2026-02-01,,1 V\n".as_bytes());
    let wants = [
        ("line 2, column 2", "comma"),
        ("line 3, column 1", "can't be a mark"),
        ("line 4, column 3", "no unit"),
        ("line 5, column 1", "here twice; the first is in line 2"),
        ("line 6, column 1", "is a day"),
        ("line 6, column 3", "in volts"),
    ];
    assert_eq!(told.len(), wants.len(), "{told:#?}");
    for ((place, message), (wanted, part)) in told.iter().zip(wants) {
        assert!(place == wanted && message.contains(part), "{place}: {message}");
    }
    assert!(faults(b"colour,size\nred,1\n")[0].1.contains("no row of heads"));
    assert!(faults(b"does,size\nred,1\n")[0].1.contains("no column is headed"));
    assert!(faults(b"mark,does\n,x\n")[0].1.contains("no row with a mark"));
}

#[test]
fn large_tables_end_in_a_clear_message() {
    let row = |n: usize| format!("Z{n},Zone {n}\n");
    let rows = |many: usize| format!("mark,does\n{}", (0..many).map(row).collect::<String>());
    let card = text(rows(1999).as_bytes());
    assert_eq!(card.matches("  - mark: Z").count(), 1999);
    let told = drafted(rows(100_000).as_bytes(), &[]).expect_err("too many");
    assert!(told[0].message.contains("more than 2000 rows") && told[0].message.contains("line 2001"), "{told:?}");
    let told = drafted(&vec![b'x'; 9 << 20], &[]).expect_err("too large");
    assert!(told[0].message.contains("8 MB"), "{told:?}");
}

#[test]
fn what_yaml_would_take_for_something_else_stays_what_it_was() {
    let card = text("mark,does,x\n12,\"a: b # c\",# d\nno,'q,\"two\nlines\"\n-,x,\n+,y,\n\"[\",z,\n".as_bytes());
    checked(&card);
    for part in [
        "- mark: \"12\"\n    does: \"a: b # c\"\n    # x: # d\n",
        "- mark: \"no\"\n",
        "# x: two lines\n",
        "- mark: \"[\"\n",
    ] {
        assert!(card.contains(part), "{part}\n{card}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn any_table_gives_a_card_without_faults_or_faults_with_places(
        rows in prop::collection::vec(prop::collection::vec("[ -~äΩ\n]{0,12}", 1..6), 0..20),
        separator in prop::sample::select(vec![",", ";", "\t"]),
    ) {
        let quoted = |cell: &String| format!("\"{}\"", cell.replace('"', "\"\""));
        let line = |row: &Vec<String>| row.iter().map(quoted).collect::<Vec<_>>().join(separator) + "\n";
        let table = format!("mark{separator}does\n{}", rows.iter().map(line).collect::<String>());
        if let Ok(draft) = drafted(table.as_bytes(), &[]) {
            checked(&draft.text);
        }
    }

    #[test]
    fn any_bytes_give_a_table_or_a_fault(bytes in prop::collection::vec(any::<u8>(), 0..300)) {
        let _ = drafted(&bytes, &[("mark", "1")]);
        let _ = drafted(&[b"PK\x03\x04".as_slice(), &bytes].concat(), &[]);
    }
}
