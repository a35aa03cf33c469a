//! Blocks to PDF: shape text, flow it into page frames, write the frames.

mod flow;
mod frame;
mod paginate;
mod text;
mod write;

pub use frame::{Item, Mark, Node, PageFrame, Role, Tree};
pub use paginate::{Document, Section, lay_out};
pub use text::{FontFiles, Run, font_files};
pub use write::{Meta, write};
