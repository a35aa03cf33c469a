//! stub
use crate::cli::Outcome;
use crate::cli::args::BeginArgs;
use crate::cli::screen::Screen;
pub(super) fn run(_args: &BeginArgs, _screen: &mut Screen) -> Outcome { Outcome::Done }
