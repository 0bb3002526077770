//! Which links survive.

use pulldown_cmark::{LinkType, Tag};

/// Whether a link leads where a person would follow it: http, https, mailto, tel, or a place on the page.
pub(super) fn allowed(tag: &Tag) -> bool {
    let Tag::Link { link_type, dest_url, .. } = tag else { return false };
    if *link_type == LinkType::Email {
        return true;
    }
    let lower = dest_url.trim().to_ascii_lowercase();
    ["http://", "https://", "mailto:", "tel:", "#"].iter().any(|scheme| lower.starts_with(scheme))
        && !lower.chars().any(char::is_control)
}
