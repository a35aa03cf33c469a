//! Counts of the bands of a tube or flat piece: one common count if it comes close, else each its own.
//!
//! A count within [`CLOSE`] per cent of the girth aimed at is close. Where no common count is, neighbours that differ
//! are joined by an even increase or decrease in the plain round between them; without such a round they must share.

use crate::ground::units::stitches_in;
use crate::piece::schedule::bounds::{MOST_STITCHES, is_positive};
use crate::piece::schedule::even::{Ends, Spread, SpreadError, spread};
use crate::piece::schedule::multiple::Counts;
use crate::piece::schedule::outcome::{is_close, outcome, remedies};

pub use crate::piece::schedule::outcome::{BandWish, CLOSE, Outcome, Remedies};

/// The count of a band.
#[derive(Clone, Debug, PartialEq)]
pub struct BandCount {
    /// The count and its error.
    pub outcome: Outcome,
    /// What would help; only for a count that is not close.
    pub remedies: Option<Remedies>,
}

/// An even increase or decrease in the plain round beneath a band.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlainChange {
    /// Index of the band above it.
    pub band: usize,
    /// From the count beneath to the count of that band.
    pub spread: Spread,
}

/// The counts of a piece.
#[derive(Clone, Debug, PartialEq)]
pub struct CountPlan {
    /// Stitches to cast on.
    pub cast_on: usize,
    /// Whether one count serves all bands.
    pub common: bool,
    /// The count of each band.
    pub bands: Vec<BandCount>,
    /// Where the count changes, upwards.
    pub changes: Vec<PlainChange>,
}

/// Why there are no counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CountError {
    /// No bands.
    NoBands,
    /// A girth or gauge that is not above zero, or one that asks for more than [`MOST_STITCHES`].
    BadMeasure {
        /// Index of the band.
        band: usize,
    },
    /// A repeat of no stitches, or one too wide to count.
    BadRepeat {
        /// Index of the band.
        band: usize,
    },
    /// Two bands need different counts and no plain round lies between them.
    NoPlainRound {
        /// Index of the lower band, and the count it needs.
        below: (usize, usize),
        /// Index of the band on top of it, and the count it needs.
        above: (usize, usize),
    },
    /// The change between two bands is too large for one round.
    TooSteep {
        /// Index of the band above the change.
        band: usize,
        /// What stands in the way.
        error: SpreadError,
    },
}

/// Finds the cast-on and the count of each band, from the cast-on upwards.
///
/// A common count within [`CLOSE`] per cent of every band's girth is taken first. Otherwise each stretch of bands
/// without a plain round between them has its own count, nearest to its girth (ties: the larger), unless a count that is
/// close for several of them serves them all; a stretch that asks nothing of its count keeps that of a neighbour where it
/// is close.
///
/// # Errors
/// See [`CountError`].
pub fn plan(bands: &[BandWish], ends: Ends) -> Result<CountPlan, CountError> {
    let asked = asked(bands)?;
    let everything: Vec<usize> = (0..bands.len()).collect();
    let common = shared(&asked, &everything).filter(|(_, worst)| is_close(*worst));
    let counts = match common {
        Some((count, _)) => vec![count; bands.len()],
        None => separate(bands, &asked)?,
    };
    let mut changes = Vec::new();
    for (band, pair) in counts.windows(2).enumerate() {
        if let [beneath, count] = *pair
            && beneath != count
        {
            let spread = spread(beneath, count, ends).map_err(|error| CountError::TooSteep {
                band: band + 1,
                error,
            })?;
            changes.push(PlainChange {
                band: band + 1,
                spread,
            });
        }
    }
    Ok(CountPlan {
        cast_on: counts.first().copied().ok_or(CountError::NoBands)?,
        common: common.is_some(),
        bands: bands
            .iter()
            .zip(&counts)
            .map(|(band, count)| band_count(band, *count, ends))
            .collect(),
        changes,
    })
}

/// The counts a band can have, and the stitches, unrounded, that its girth asks for.
type Asked = (Counts, f64);

fn asked(bands: &[BandWish]) -> Result<Vec<Asked>, CountError> {
    if bands.is_empty() {
        return Err(CountError::NoBands);
    }
    let one = |(band, wish): (usize, &BandWish)| {
        let target = stitches_in(wish.girth, wish.gauge);
        let sound = is_positive(wish.girth.to_mm())
            && is_positive(wish.gauge)
            && target <= MOST_STITCHES as f64
            && target >= 0.5;
        if !sound {
            return Err(CountError::BadMeasure { band });
        }
        let counts = wish.fit.counts().ok_or(CountError::BadRepeat { band })?;
        Ok((counts, target))
    };
    bands.iter().enumerate().map(one).collect()
}

fn percent_off(count: usize, target: f64) -> f64 {
    100.0 * (count as f64 - target).abs() / target
}

/// The count that all these bands can share with the smallest worst error, and that error in per cent.
fn shared(asked: &[Asked], bands: &[usize]) -> Option<(usize, f64)> {
    let mut members = bands.iter().filter_map(|band| asked.get(*band));
    let (first, target) = *members.next()?;
    let mut counts = first;
    let (mut low, mut high) = (target, target);
    for (other, target) in members {
        counts = counts.and(*other)?;
        low = low.min(*target);
        high = high.max(*target);
    }
    // Here the smallest girth is overshot by as many per cent as the largest is missed.
    let middle = 2.0 * low * high / (low + high);
    let below = counts.at_most(middle);
    let above = counts.above(below);
    let worst = |count: usize| percent_off(count, low).max(percent_off(count, high));
    [above, below]
        .into_iter()
        .flatten()
        .map(|count| (count, worst(count)))
        .reduce(|best, next| if next.1 + 1e-9 < best.1 { next } else { best })
}

/// Stretches of bands that must share a count: a plain round beneath a band begins a new one.
fn stretches(bands: &[BandWish]) -> Vec<Vec<usize>> {
    let mut found: Vec<Vec<usize>> = Vec::new();
    for (band, wish) in bands.iter().enumerate() {
        match found.last_mut() {
            Some(stretch) if !wish.plain_before => stretch.push(band),
            _ => found.push(vec![band]),
        }
    }
    found
}

fn separate(bands: &[BandWish], asked: &[Asked]) -> Result<Vec<usize>, CountError> {
    let stretches = stretches(bands);
    let mut chosen: Vec<Option<usize>> = Vec::new();
    let free = |stretch: &[usize]| {
        stretch
            .iter()
            .all(|band| bands.get(*band).is_none_or(|wish| wish.fit.is_free()))
    };
    let mut groups: Vec<Vec<usize>> = Vec::new();
    for stretch in &stretches {
        // What is wrong within a stretch is told, whatever could be shared.
        let count = agreed(asked, stretch)?;
        chosen.push((!free(stretch)).then_some(count));
        if !free(stretch) {
            let together = |group: &Vec<usize>| [group.as_slice(), stretch].concat();
            let close = |group: &Vec<usize>| {
                shared(asked, &together(group)).is_some_and(|(_, worst)| is_close(worst))
            };
            match groups.iter_mut().find(|group| close(group)) {
                Some(group) => group.extend(stretch),
                None => groups.push(stretch.clone()),
            }
        }
    }
    // Stretches that one count serves have it, whatever lies between them.
    for (stretch, count) in stretches.iter().zip(&mut chosen) {
        let group = groups
            .iter()
            .find(|g| stretch.iter().all(|band| g.contains(band)));
        let several = group.filter(|group| group.len() > stretch.len());
        *count = several
            .and_then(|group| shared(asked, group))
            .map(|(count, _)| count)
            .or(*count);
    }
    for at in 0..chosen.len() {
        if chosen.get(at).is_some_and(Option::is_some) {
            continue;
        }
        let Some(stretch) = stretches.get(at) else {
            continue;
        };
        let near = |count: usize| {
            let close = |band: &usize| {
                asked
                    .get(*band)
                    .is_some_and(|a| is_close(percent_off(count, a.1)))
            };
            stretch.iter().all(close).then_some(count)
        };
        let beneath = at.checked_sub(1).and_then(|i| *chosen.get(i)?);
        let above = chosen.iter().skip(at).find_map(|count| *count);
        let kept = beneath.and_then(near).or(above.and_then(near));
        let count = match kept {
            Some(count) => count,
            None => agreed(asked, stretch)?,
        };
        if let Some(place) = chosen.get_mut(at) {
            *place = Some(count);
        }
    }
    let each = stretches.iter().zip(&chosen);
    Ok(each
        .flat_map(|(stretch, count)| vec![count.unwrap_or(1); stretch.len()])
        .collect())
}

/// The count of a stretch that must share one.
///
/// # Errors
/// Two neighbours that share no count, or only one that is not close although each alone would come closer.
fn agreed(asked: &[Asked], stretch: &[usize]) -> Result<usize, CountError> {
    let alone = |band: &usize| shared(asked, std::slice::from_ref(band)).unwrap_or((1, 0.0));
    let mut worst_alone = 0.0_f64;
    let mut count = 0;
    for (end, band) in stretch.iter().enumerate() {
        worst_alone = worst_alone.max(alone(band).1);
        let together = shared(asked, stretch.get(..=end).unwrap_or_default());
        count = match together {
            Some((count, worst)) if is_close(worst) || worst <= worst_alone + 1e-9 => count,
            _ => {
                let beneath = end
                    .checked_sub(1)
                    .and_then(|i| stretch.get(i))
                    .unwrap_or(band);
                return Err(CountError::NoPlainRound {
                    below: (*beneath, alone(beneath).0),
                    above: (*band, alone(band).0),
                });
            }
        };
    }
    Ok(count)
}

fn band_count(band: &BandWish, stitches: usize, ends: Ends) -> BandCount {
    let outcome = outcome(band, stitches);
    let remedies = (!is_close(outcome.percent.abs())).then(|| remedies(band, stitches, ends));
    BandCount { outcome, remedies }
}
