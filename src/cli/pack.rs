//! stub
use crate::cli::Outcome;
use crate::cli::args::PackArgs;
use crate::cli::screen::Screen;
pub(super) fn run(_args: &PackArgs, _screen: &mut Screen) -> Outcome { Outcome::Done }
