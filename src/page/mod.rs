//! From a template to what people read: template → Markdown → blocks → HTML, PDF, Markdown.
//!
//! tera is named in `template`, pulldown-cmark in `blocks::parse`, printpdf in `pdf::write`, and nowhere else.

pub mod blocks;
mod directives;
pub mod html;
pub mod markdown;
mod number;
pub mod pack;
pub mod pdf;
pub mod svg;
mod template;

pub use directives::{Comparison, CourseDirectives, HandoutDirectives};
pub use template::{TemplateError, Templates};
