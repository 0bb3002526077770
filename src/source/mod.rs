//! From files to trees: reads what is on disk (or embedded) and turns YAML into nodes that know their places.
//! Nothing here judges a value.

mod files;
mod list;
mod note;
mod picture;
mod reader;
mod table;
mod tree;
mod workbook;

pub use files::{FileFault, Files, LARGEST, SourceFile, ends_in_yaml};
pub use list::{Listed, list, list_pictures};
pub use note::{NoteText, split};
pub use picture::{PICTURE_BYTES, PICTURE_ENDINGS, Picture, PictureKind, PicturePlace, is_picture};
pub use reader::{read, text_of};
pub use table::{TABLE_BYTES, Table, TableRow, table};
pub use tree::{Entry, Node, Plain, Scalar, Span, Value};
pub use workbook::{Workbook, Worksheet, Written, cell_name, workbook};
