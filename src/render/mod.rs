//! View to Markdown to HTML.
