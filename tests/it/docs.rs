//! The README and the book run.
