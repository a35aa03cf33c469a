//! Blocks to PDF: shape text, flow it into page frames, write the frames.

mod booklet;
mod deflate;
mod face;
mod fill;
mod flow;
mod frame;
mod paginate;
mod press;
mod printed;
mod promises;
mod run;
mod sheet;
mod sizes;
mod structure;
mod tags;
mod text;
mod write;

pub use booklet::sheets;
#[cfg(test)]
pub(in crate::page) use face::has_outline;
pub use face::{FONTS, Face};
pub use frame::{Item, Node, PageFrame, PageMark, Role, Tree};
pub use paginate::{Document, PlacedSection, Section, lay_out};
pub use press::{Binder, Bound};
pub use printed::Printed;

pub(in crate::page) use deflate::zlib;
pub use sheet::{Furniture, Sheet, foot_fits};
pub use text::Run;
pub use write::Meta;
