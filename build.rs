//! Has the program built anew when a file is added to what it embeds: the compiler sees changed files only.

fn main() {
    println!("cargo::rerun-if-changed=library");
    println!("cargo::rerun-if-changed=templates");
}
