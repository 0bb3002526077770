//! The README and the book run: every command they show is run, and prints what they show.

/// The commands of the README and of each chapter. What is not shown in full is cut with `...`.
#[test]
fn documents_show_what_the_program_prints() {
    trycmd::TestCases::new().case("README.md").case("book/src/*.md");
}
