//! Where a photograph was taken: phones write it into the file.

use std::io::Cursor;

/// How the place is called in the data that picture programs add as XML (XMP, ISO 16684-1), which carries Exif's names.
const IN_XML: [&[u8]; 2] = [b"GPSLatitude", b"GPSLongitude"];

/// Whether a picture's file holds the place where it was taken: the position of Exif (CIPA DC-008, its GPS attributes),
/// or the same as XML. A picture that can't be read as one holds none.
#[must_use]
pub fn taken_at(bytes: &[u8]) -> bool {
    let in_xml = IN_XML.iter().any(|name| bytes.windows(name.len()).any(|part| part == *name));
    in_xml || in_exif(bytes)
}

fn in_exif(bytes: &[u8]) -> bool {
    let mut reader = exif::Reader::new();
    // What can be read of damaged data counts.
    reader.continue_on_error(true);
    let read = reader.read_from_container(&mut Cursor::new(bytes));
    let read = read.or_else(|error| error.distill_partial_result(|_| {}));
    let is_place = |field: &exif::Field| matches!(field.tag, exif::Tag::GPSLatitude | exif::Tag::GPSLongitude);
    read.is_ok_and(|data| data.fields().any(is_place))
}
