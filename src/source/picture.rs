//! Pictures beside notes: `notes/CARD/NAME`. They are listed with a library and read only when one is wanted.

use super::files::{FileFault, Files};
use std::fs;
use std::io::Read;
use std::path::{Path, PathBuf};

/// The largest picture that is read, in bytes.
pub const PICTURE_BYTES: u64 = 2_000_000;

/// The endings of pictures' names, as they are told to people.
pub const PICTURE_ENDINGS: &str = "`.png`, `.jpg` or `.webp`";

/// What a picture is. All three are shown by every browser and can hold no script.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum PictureKind {
    /// Portable Network Graphics (W3C).
    Png,
    /// JPEG (ISO/IEC 10918).
    Jpeg,
    /// WebP (RFC 9649).
    Webp,
}

impl PictureKind {
    /// What a file's name says that it is.
    #[must_use]
    pub fn of_name(name: &str) -> Option<Self> {
        let (stem, ending) = name.rsplit_once('.')?;
        match ending.to_ascii_lowercase().as_str() {
            _ if stem.is_empty() => None,
            "png" => Some(Self::Png),
            "jpg" | "jpeg" => Some(Self::Jpeg),
            "webp" => Some(Self::Webp),
            _ => None,
        }
    }

    /// What its first bytes say that it is: the signatures of PNG (W3C, section 5.2), of JPEG (SOI and the marker that
    /// follows, ITU-T T.81, annex B) and of WebP (RFC 9649, section 2.4).
    #[must_use]
    pub fn of_content(bytes: &[u8]) -> Option<Self> {
        let is_webp = bytes.starts_with(b"RIFF") && bytes.get(8..12) == Some(b"WEBP");
        match bytes {
            _ if bytes.starts_with(b"\x89PNG\r\n\x1a\n") => Some(Self::Png),
            _ if bytes.starts_with(b"\xff\xd8\xff") => Some(Self::Jpeg),
            _ if is_webp => Some(Self::Webp),
            _ => None,
        }
    }

    /// Its media type.
    #[must_use]
    pub fn media_type(self) -> &'static str {
        match self {
            Self::Png => "image/png",
            Self::Jpeg => "image/jpeg",
            Self::Webp => "image/webp",
        }
    }

    fn word(self) -> &'static str {
        match self {
            Self::Png => "PNG",
            Self::Jpeg => "JPEG",
            Self::Webp => "WebP",
        }
    }
}

/// Where a picture is until it is wanted.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PicturePlace {
    /// In the program.
    Embedded(&'static [u8]),
    /// On disk.
    OnDisk(PathBuf),
}

/// A picture that can be shown.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Picture {
    /// What it is.
    pub kind: PictureKind,
    /// Its file's bytes.
    pub bytes: Vec<u8>,
}

/// Whether a path in a library is a picture's: in a card's folder of notes, with a picture's ending.
#[must_use]
pub fn is_picture(path: &str) -> bool {
    let mut parts = path.split('/');
    let is_beside_a_note = parts.next() == Some("notes") && parts.next().is_some();
    let name = parts.next().filter(|_| parts.next().is_none());
    is_beside_a_note && name.is_some_and(|name| PictureKind::of_name(name).is_some())
}

impl Files {
    /// A picture, by its path below the library's folder. `None`: there is none of that name.
    ///
    /// # Errors
    /// When it can't be shown: a link that leads elsewhere, no ordinary file, too large, or not what its name says.
    #[must_use]
    pub fn picture(&self, path: &str) -> Option<Result<Picture, FileFault>> {
        let name = path.rsplit('/').next().unwrap_or(path);
        let bytes = match self.pictures.get(path)? {
            PicturePlace::Embedded(bytes) => Ok(bytes.to_vec()),
            PicturePlace::OnDisk(path) => read(path),
        };
        Some(bytes.and_then(|bytes| picture(name, bytes)))
    }
}

/// What a file of this name and these bytes is.
fn picture(name: &str, bytes: Vec<u8>) -> Result<Picture, FileFault> {
    if bytes.len() as u64 > PICTURE_BYTES {
        let help = "make it smaller: 1200 pixels across show a terminal strip well";
        return refuse("this picture is larger than 2 MB (2 000 000 bytes)", help);
    }
    let named = PictureKind::of_name(name);
    match (PictureKind::of_content(&bytes), named) {
        (Some(kind), Some(named)) if kind == named => Ok(Picture { kind, bytes }),
        (Some(kind), Some(named)) => {
            let help = format!("let its name end as what it is, or save it as {}", named.word());
            refuse(&format!("this is a {} picture, and its name says {}", kind.word(), named.word()), &help)
        }
        _ => refuse("this is no picture, whatever its name says", "put a PNG, JPEG or WebP picture in its place"),
    }
}

/// The bytes of an ordinary file that lies in the folder where it is named; one more than are allowed at most.
fn read(path: &Path) -> Result<Vec<u8>, FileFault> {
    let look = "look at its name and its permissions";
    let real = fs::canonicalize(path).and_then(|real| Ok((real, fs::canonicalize(path.parent().unwrap_or(path))?)));
    let (real, home) = match real {
        Ok(found) => found,
        Err(error) => return refuse(&format!("this picture can't be read: {error}"), look),
    };
    if !real.starts_with(&home) {
        return refuse("this is a link to a file elsewhere", "put the picture itself beside the note");
    }
    // Opening a pipe would wait for a writer.
    if !fs::metadata(&real).is_ok_and(|about| about.is_file()) {
        return refuse("this is not an ordinary file", "put an ordinary file in its place");
    }
    let mut bytes = Vec::new();
    match fs::File::open(&real).and_then(|file| file.take(PICTURE_BYTES + 1).read_to_end(&mut bytes)) {
        Ok(_) => Ok(bytes),
        Err(error) => refuse(&format!("this picture can't be read: {error}"), look),
    }
}

fn refuse<T>(message: &str, help: &str) -> Result<T, FileFault> {
    Err(FileFault { message: message.to_owned(), help: help.to_owned() })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_picture_is_what_its_name_and_its_first_bytes_say() {
        let png = b"\x89PNG\r\n\x1a\n".to_vec();
        let of = |name: &str, bytes: &[u8]| picture(name, bytes.to_vec()).map(|p| p.kind).map_err(|f| f.message);
        assert_eq!(of("a.png", &png), Ok(PictureKind::Png));
        assert_eq!(of("a.JPEG", b"\xff\xd8\xff\xe0"), Ok(PictureKind::Jpeg));
        assert_eq!(of("a.webp", b"RIFF\x04\x00\x00\x00WEBPVP8L"), Ok(PictureKind::Webp));
        assert_eq!(of("a.jpg", &png), Err("this is a PNG picture, and its name says JPEG".into()));
        assert_eq!(of("a.png", b"<svg xmlns="), Err("this is no picture, whatever its name says".into()));
        assert!(of("a.png", &[png, vec![0; 2_000_000]].concat()).is_err());
    }

    #[test]
    fn a_picture_lies_beside_a_note() {
        assert!(is_picture("notes/merrowby-mb6/lid.png"));
        assert!(!is_picture("notes/lid.png") && !is_picture("panels/lid.png") && !is_picture("notes/a/b/lid.png"));
        assert!(!is_picture("notes/a/.png") && !is_picture("notes/a/lid.svg"));
    }
}
