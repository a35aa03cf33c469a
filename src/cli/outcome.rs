//! How a command ended.

use std::process::ExitCode;

/// How a command ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Outcome {
    /// Done.
    Done,
    /// Faults were found.
    Faults,
    /// Could not run.
    CouldNotRun,
}

impl From<Outcome> for ExitCode {
    fn from(outcome: Outcome) -> Self {
        match outcome {
            Outcome::Done => Self::SUCCESS,
            Outcome::Faults => Self::from(1),
            Outcome::CouldNotRun => Self::from(2),
        }
    }
}
