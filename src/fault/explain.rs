//! Why each fault matters and how to mend it.

use crate::fault::Code;

/// The explanation of a fault.
#[must_use]
pub fn explanation(_code: Code) -> &'static str { "" }
