//! What a template is told that does too much.

/// Of a filter that is not there.
pub const NO_INDENT: &str = "`indent` is not offered: Markdown says by indentation what a thing is";

/// Loops without end, or nearly.
#[must_use]
pub fn too_many_rounds(most: u64) -> String {
    format!("the template goes round more than {most} times")
}

/// A text that grows under a name.
#[must_use]
pub fn too_long_a_text(most: usize) -> String {
    format!("the template makes a text of more than {most} bytes")
}

/// A page that grows.
#[must_use]
pub fn too_long_a_page(most: usize) -> String {
    format!("the template writes more than {most} bytes")
}
