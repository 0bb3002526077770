//! Markdown and HTML of packs.
