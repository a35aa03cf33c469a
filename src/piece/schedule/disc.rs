//! The crown of a crochet hat from the middle down: a flat disc that grows by as many stitches each round as its ring has.
//!
//! Common practice, no source: six stitches of single crochet to the ring and six more a round lie flat.

use crate::piece::schedule::even::{Ends, SpreadError, spread};
use crate::piece::schedule::round::Round;

/// Rounds from a ring of so many stitches to `stitches`; none where the ring has as many already. The last round takes what
/// is left.
///
/// # Errors
/// A ring without stitches, or counts beyond all bounds.
pub fn disc(ring: usize, stitches: usize) -> Result<Vec<Round>, SpreadError> {
    let mut rounds = Vec::new();
    let mut now = ring;
    while now < stitches {
        let next = (now + ring).min(stitches);
        rounds.push(Round::even(spread(now, next, Ends::Round)?));
        now = next;
    }
    Ok(rounds)
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests may panic")]
mod tests {
    use super::disc;

    #[test]
    fn a_disc_grows_by_its_ring() {
        // Common practice: 6, 12, 18, 24 and so on.
        let counts: Vec<usize> = disc(6, 40).unwrap().iter().map(|r| r.after).collect();
        assert_eq!(counts, [12, 18, 24, 30, 36, 40]);
        assert!(disc(6, 6).unwrap().is_empty());
        assert!(disc(0, 6).is_err());
    }
}
