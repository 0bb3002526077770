//! Pictures beside notes: what `check` says of them, what `note` refuses, what a pack shows.

use super::run::{library, program, run};
use std::fs;
use std::path::{Path, PathBuf};

/// The first bytes of a PNG file (W3C, section 5.2), and enough of nothing after them.
const PNG: &[u8] = b"\x89PNG\r\n\x1a\n\0\0\0\0";

/// A library with a note whose text this is, on a card without pictures.
struct Shelf {
    dir: tempfile::TempDir,
    folder: PathBuf,
}

impl Shelf {
    fn with(text: &str) -> Self {
        let (dir, library) = library();
        let folder = library.join("notes/quillace-q4");
        let note = format!("---\ndate: 2026-11-20\n---\n{text}\n");
        fs::write(folder.join("2026-11-20-a-picture.md"), note).expect("a note is written");
        Self { dir, folder }
    }

    fn picture(self, name: &str, bytes: &[u8]) -> Self {
        fs::write(self.folder.join(name), bytes).expect("a picture is written");
        self
    }

    /// What `check` prints of the library, and its exit code.
    fn check(&self) -> (i32, String) {
        let ran = run(self.dir.path(), &["--library", "library", "check"]);
        (ran.code.unwrap_or(-1), ran.out)
    }

    #[track_caller]
    fn refused(&self, words: &str) {
        let (code, out) = self.check();
        assert!(code == 1 && out.contains(words), "{words}: {out}");
    }

    #[track_caller]
    fn right(&self) {
        let (code, out) = self.check();
        assert!(code == 0 && out.contains("no faults\n"), "{out}");
    }
}

#[test]
fn a_picture_beside_its_note_with_words_is_right() {
    Shelf::with("![The lid](lid.png)").picture("lid.png", PNG).right();
    Shelf::with("| a |\n|---|\n| ![The lid](Lid_2.JPG \"lid\") |").picture("Lid_2.JPG", b"\xff\xd8\xff\xe0").right();
    Shelf::with("![The lid](lid.webp)").picture("lid.webp", b"RIFF\x04\0\0\0WEBPVP8L").right();
}

#[test]
fn what_is_no_picture_beside_the_note_is_refused_with_its_place() {
    let place = "library/notes/quillace-q4/2026-11-20-a-picture.md:4:5";
    for to in [
        "../merrowby-mb6/lk2.png",
        "/etc/lid.png",
        "in/lid.png",
        "https://example.org/lid.png",
        "file:lid.png",
        "a..png",
    ] {
        let shelf = Shelf::with(&format!("See ![The lid]({to})")).picture("lid.png", PNG);
        shelf.refused("a picture lies beside its note: no folder, no address");
        shelf.refused(place);
    }
    Shelf::with("See ![The lid](lod.png)").picture("lid.png", PNG).refused("did you mean lid.png?");
    Shelf::with("See ![The lid](lid.png)").refused("there is no picture `lid.png` beside this note");
    Shelf::with("See ![The lid](lid.svg)").picture("lid.svg", b"<svg/>").refused("pictures of this kind are not shown");
    Shelf::with("See ![](lid.png)").picture("lid.png", PNG).refused("this picture has no words");
    Shelf::with("See ![The lid](<the lid.png>)").refused("a picture's name is made of plain letters");
}

#[test]
fn a_picture_is_what_its_name_says_and_not_too_large() {
    let shelf = |bytes: &[u8]| Shelf::with("![The lid](lid.png)").picture("lid.png", bytes);
    shelf(b"\xff\xd8\xff\xe0").refused("this is a JPEG picture, and its name says PNG");
    shelf(b"<html>").refused("this is no picture, whatever its name says");
    let mut large = PNG.to_vec();
    large.resize(2_000_000, 0);
    shelf(&large).right();
    large.push(0);
    shelf(&large).refused("this picture is larger than 2 MB");
}

#[test]
fn a_picture_that_no_note_shows_is_a_warning() {
    let shelf = Shelf::with("No picture.").picture("lid.png", PNG);
    let (code, out) = shelf.check();
    assert!(code == 0 && out.contains("warning: no note shows this picture"), "{out}");
    assert!(out.ends_with("checked, no faults, 1 warning\n"), "{out}");
    // What was told is told again while nothing has changed, and not after.
    assert_eq!(shelf.check(), (code, out));
    fs::remove_file(shelf.folder.join("lid.png")).expect("a file is removed");
    shelf.right();
}

#[cfg(unix)]
#[test]
fn a_link_to_a_file_elsewhere_is_refused() {
    use std::os::unix::fs::symlink;
    let shelf = Shelf::with("![The lid](lid.png)").picture("real.png", PNG);
    let link = shelf.folder.join("lid.png");
    symlink("../merrowby-mb6/lk2.png", &link).expect("a link");
    shelf.refused("this is a link to a file elsewhere");
    run(shelf.dir.path(), &["--library", "library", "pack", "library/surveys/net-loft.yaml"]).ends(0);
    fs::remove_file(&link).expect("a link is removed");
    symlink("real.png", &link).expect("a link");
    let (code, out) = shelf.check();
    assert!(code == 0 && !out.contains("link to a file"), "{out}");
}

/// A JPEG whose Exif data says where it was taken, byte by byte after CIPA DC-008 (Exif 3.0): SOI, APP1, a TIFF header,
/// an IFD with the pointer to the GPS IFD (8825), in that its latitude (2), three rationals.
fn photograph() -> Vec<u8> {
    let mut tiff = b"MM\0\x2a\0\0\0\x08".to_vec();
    tiff.extend(b"\0\x01\x88\x25\0\x04\0\0\0\x01\0\0\0\x1a\0\0\0\0");
    tiff.extend(b"\0\x01\0\x02\0\x05\0\0\0\x03\0\0\0\x2c\0\0\0\0");
    for value in [51_u32, 1, 28, 1, 40, 1] {
        tiff.extend(value.to_be_bytes());
    }
    let length = u16::try_from(2 + 6 + tiff.len()).expect("a short segment");
    let mut bytes = b"\xff\xd8\xff\xe1".to_vec();
    bytes.extend(length.to_be_bytes());
    bytes.extend(b"Exif\0\0");
    bytes.extend(tiff);
    bytes.extend(b"\xff\xd9");
    bytes
}

#[test]
fn a_picture_that_says_where_it_was_taken_is_refused() {
    let words = "this picture holds the place where it was taken";
    Shelf::with("![The lid](lid.jpg)").picture("lid.jpg", &photograph()).refused(words);
    let xml = [PNG, b"iTXt exif:GPSLatitude=\"51,28.4N\""].concat();
    Shelf::with("![The lid](lid.png)").picture("lid.png", &xml).refused(words);
    // The same photograph without the pointer to its place.
    let bare: Vec<u8> = photograph().iter().map(|byte| if *byte == 0x88 { 0x01 } else { *byte }).collect();
    Shelf::with("![The lid](lid.jpg)").picture("lid.jpg", &bare).right();
}

#[test]
fn a_picture_is_not_named_after_a_site() {
    let shelf = Shelf::with("![The lid](lantern-bakery.png)").picture("lantern-bakery.png", PNG);
    shelf.refused("in the file's name, `lantern bakery` is the name or address of a surveyed site");
}

#[test]
fn a_note_that_shows_a_wrong_picture_is_not_written() {
    let shelf = Shelf::with("No picture.").picture("lid.png", PNG).picture("bad.png", b"GIF89a");
    let note = |text: &str| run(shelf.dir.path(), &["--library", "library", "note", "quillace-q4", text, "--by", "KM"]);
    assert!(note("See ![The lid](lod.png)").ends(1).err.contains("did you mean lid.png?"));
    assert!(note("See ![The lid](bad.png)").ends(1).err.contains("this is no picture"));
    note("See ![The lid](lid.png)").ends(0);
}

fn pack(dir: &Path) {
    let args = ["--library", "library", "pack", "lantern-bakery", "-o", "packs"];
    run(dir, &args).ends(0);
}

#[test]
fn a_pack_holds_the_pictures_of_its_notes_and_loses_those_that_went() {
    let (dir, library) = library();
    pack(dir.path());
    let folder = dir.path().join("packs/lantern-bakery");
    let file = folder.join("pictures/note.merrowby-mb6.lk2.png");
    let beside = library.join("notes/merrowby-mb6/lk2.png");
    assert_eq!(fs::read(&file).expect("a picture"), fs::read(&beside).expect("a picture"));
    let html = fs::read_to_string(folder.join("pack.html")).expect("a page");
    assert!(html.contains("<img src=\"data:image/png;base64,iVBORw0KGgo"), "the picture is within the page");
    assert!(html.contains(" img-src data:; base-uri 'none'"), "and nothing else may load");
    let markdown = fs::read_to_string(folder.join("pack.md")).expect("a pack");
    assert!(markdown.contains("](pictures/note.merrowby-mb6.lk2.png)"), "the Markdown points beside it");
    let json: serde_json::Value =
        serde_json::from_slice(&fs::read(folder.join("pack.json")).expect("JSON")).expect("JSON");
    assert_eq!(json["pictures"][0]["file"], "pictures/note.merrowby-mb6.lk2.png");
    assert_eq!(json["pictures"][0]["about"], "LK2");

    fs::write(folder.join("pictures/lid-as-found.jpg"), "mine").expect("a photograph of the user's");
    fs::remove_file(&beside).expect("a picture goes");
    pack(dir.path());
    assert!(!file.exists(), "a picture that was taken out of the library is out of the pack");
    assert_eq!(fs::read(folder.join("pictures/lid-as-found.jpg")).expect("it stays"), b"mine");
    let markdown = fs::read_to_string(folder.join("pack.md")).expect("a pack");
    assert!(
        markdown.contains("the far left* (picture lk2.png, which is not there)"),
        "its words are shown all the same"
    );
    let html = fs::read_to_string(folder.join("pack.html")).expect("a page");
    assert!(!html.contains("<img") && !html.contains("img-src"));
}

#[test]
fn show_and_find_say_that_a_picture_is_there() {
    let (dir, _) = library();
    for args in [["show", "merrowby-mb6"], ["notes", "merrowby-mb6"], ["find", "lk2 pins"]] {
        let ran = program(dir.path()).args(["--library", "library"]).args(args).output().expect("the program starts");
        let out = String::from_utf8_lossy(&ran.stdout).replace('*', "");
        assert!(out.contains("[picture lk2.png: LK2 is two pins above SIR"), "{args:?}: {out}");
    }
}

/// Pictures are neither listed nor read for a search: one that is no picture at all, and cannot be opened, changes nothing.
#[test]
fn a_search_leaves_pictures_alone() {
    let (dir, library) = library();
    let find = || run(dir.path(), &["--library", "library", "find", "LK2"]).ends(0).out;
    let before = find();
    fs::write(library.join("notes/merrowby-mb6/lk2.png"), vec![0; 3_000_000]).expect("a file is written");
    assert_eq!(find(), before);
}
