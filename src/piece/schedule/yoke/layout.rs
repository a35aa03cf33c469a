//! Which rounds of a yoke lie where: bands, the plain rounds between them, and the curve they are held against.

use crate::ground::units::Length;
use crate::piece::schedule::bounds::{MOST_ROUNDS, MOST_STITCHES, whole};
use crate::piece::schedule::runs::rhythm;
use crate::piece::schedule::yoke::parts::{DepthRule, Ground};
use crate::piece::schedule::yoke::{Loss, Percentages, YokeBand, YokeError, YokeWish};

/// How much deeper than asked a yoke may come out for its bands' sake, in millimetres. Our choice.
const FORGIVEN_MM: f64 = 30.0;

/// How high the plain rounds after joining are at least, in millimetres.
const CLEAR_MM: f64 = 20.0;

/// And how many rounds.
const CLEAR_ROUNDS: usize = 3;

/// Where everything lies.
#[derive(Clone, Debug)]
pub(super) struct Layout {
    /// Plain rounds beneath each band, and last those beneath the neck; a decrease round is one of them.
    pub(super) gaps: Vec<usize>,
    /// For each round of each band the share of the depth that lies beneath its middle.
    pub(super) heights: Vec<Vec<f64>>,
    /// The whole depth.
    pub(super) made: Length,
    /// What decided it.
    pub(super) rule: DepthRule,
}

/// How the count may change beneath band `at`, or beneath the neck past the last band.
pub(super) fn loss_at(wish: &YokeWish, at: usize) -> Loss {
    let (loss, plain) = match wish.bands.get(at) {
        // The rounds that clear the underarm are plain ones, too.
        Some(band) if at == 0 => (band.loss, band.plain_before.max(clear_rounds(wish))),
        Some(band) => (band.loss, band.plain_before),
        None if at == 0 => (
            wish.neck_loss,
            wish.plain_before_neck.max(clear_rounds(wish)),
        ),
        None => (wish.neck_loss, wish.plain_before_neck),
    };
    if loss == Loss::Adjust && plain == 0 {
        Loss::Keep
    } else {
        loss
    }
}

fn clear_rounds(wish: &YokeWish) -> usize {
    wish.clear.unwrap_or_else(|| {
        whole(wish.plain.rows_spanning(Length::mm(CLEAR_MM)))
            .unwrap_or(MOST_ROUNDS)
            .max(CLEAR_ROUNDS)
    })
}

/// Lays out the rounds so that they fill the depth.
///
/// Rounds to spare are shared out evenly: two parts of them after joining, one part at every place for decreases.
pub(super) fn layout(wish: &YokeWish, ground: &Ground) -> Result<Layout, YokeError> {
    check_bands(wish)?;
    let places = wish.bands.len() + 1;
    let mut gaps = Vec::with_capacity(places);
    for at in 0..places {
        let asked = wish
            .bands
            .get(at)
            .map_or(wish.plain_before_neck, |band| band.plain_before);
        let least = if loss_at(wish, at) == Loss::Keep {
            0
        } else {
            1
        };
        let clear = if at == 0 { clear_rounds(wish) } else { 0 };
        gaps.push(asked.max(least).max(clear));
    }
    let of_bands = wish
        .bands
        .iter()
        .try_fold(0, |sum: usize, band| sum.checked_add(band.rounds));
    let of_gaps = gaps
        .iter()
        .try_fold(0, |sum: usize, gap| sum.checked_add(*gap));
    let (Some(of_bands), Some(of_gaps)) = (of_bands, of_gaps) else {
        return Err(YokeError::TooLarge);
    };
    if of_bands.max(of_gaps) > MOST_ROUNDS {
        return Err(YokeError::TooLarge);
    }
    let (plain, band) = (
        wish.plain.height(1.0).to_mm(),
        wish.colourwork.height(1.0).to_mm(),
    );
    let height = |of: &YokeBand| if of.plain { plain } else { band };
    let bands_high: f64 = wish
        .bands
        .iter()
        .map(|of| of.rounds as f64 * height(of))
        .sum();
    let fixed = bands_high + of_gaps as f64 * plain;
    let depth = ground.depth.to_mm();
    if fixed > depth + FORGIVEN_MM {
        return Err(YokeError::TooDeep {
            needed: Length::mm(fixed),
            allowed: Length::mm(depth + FORGIVEN_MM),
        });
    }
    let spare = whole(((depth - fixed) / plain).max(0.0)).ok_or(YokeError::TooLarge)?;
    let rule = if fixed > depth + plain / 2.0 {
        DepthRule::Bands
    } else {
        ground.depth_rule
    };
    share_out(wish, spare, &mut gaps);
    let made = fixed + spare as f64 * plain;
    let mut y = 0.0;
    let mut heights = Vec::with_capacity(wish.bands.len());
    for (gap, of_band) in gaps.iter().zip(&wish.bands) {
        y += *gap as f64 * plain;
        let band = height(of_band);
        let middle = |round: usize| (y + (round as f64 + 0.5) * band) / made;
        heights.push((0..of_band.rounds).map(middle).collect());
        y += of_band.rounds as f64 * band;
    }
    Ok(Layout {
        gaps,
        heights,
        made: Length::mm(made),
        rule,
    })
}

fn share_out(wish: &YokeWish, spare: usize, gaps: &mut [usize]) {
    let takers: Vec<usize> = [0, 0]
        .into_iter()
        .chain((1..gaps.len()).filter(|at| loss_at(wish, *at) == Loss::Decrease))
        .collect();
    for (taker, rounds) in takers.iter().zip(rhythm(spare, takers.len())) {
        if let Some(gap) = gaps.get_mut(*taker) {
            *gap += rounds;
        }
    }
}

fn check_bands(wish: &YokeWish) -> Result<(), YokeError> {
    for (band, of_band) in wish.bands.iter().enumerate() {
        let mut live = of_band.fit.multiple;
        let mut falls = |next: &usize| {
            let sound = *next > 0 && *next <= live && live - *next <= live / 2;
            live = *next;
            sound
        };
        let shaped = &of_band.shaped;
        let sound = of_band.rounds > 0
            && of_band.rounds <= MOST_ROUNDS
            && of_band.fit.counts().is_some()
            && (shaped.is_empty() || shaped.len() == of_band.rounds)
            && shaped.iter().all(&mut falls);
        if !sound || of_band.plain_before > MOST_ROUNDS {
            return Err(YokeError::BadBand { band });
        }
    }
    Ok(())
}

/// Stitches, unrounded, that the curve has at each round of each band between `joined` and `neck` stitches.
///
/// The published decreases give shares of the whole loss: 5/14 is gone at one half of the depth, 10/14 at three
/// quarters, all at the neck (from −25 %, −33.3 %, −40 %). Girths are compared, since the bands have their own gauge.
pub(super) fn curve(wish: &YokeWish, layout: &Layout, joined: usize, neck: usize) -> Vec<Vec<f64>> {
    let (plain, band) = (wish.plain.stitches, wish.colourwork.stitches);
    let lost = joined.saturating_sub(neck) as f64;
    let at = |height: &f64, gauge: f64| {
        let stitches = joined as f64 - share_lost(wish.percentages, *height) * lost;
        (stitches * gauge / plain).clamp(1e-6, MOST_STITCHES as f64)
    };
    let each = layout.heights.iter().zip(&wish.bands);
    each.map(|(rounds, of)| {
        let gauge = if of.plain { plain } else { band };
        rounds.iter().map(|height| at(height, gauge)).collect()
    })
    .collect()
}

/// The share of the whole loss that is gone at a height, itself a share of the depth.
fn share_lost(percentages: Percentages, height: f64) -> f64 {
    let kept = |upto: f64| -> f64 {
        let gone = percentages
            .steps
            .iter()
            .filter(|(at, _)| *at <= upto + 1e-9);
        gone.map(|(_, keep)| keep).product()
    };
    let whole = 1.0 - kept(1.0);
    if whole > 0.0 {
        (1.0 - kept(height)) / whole
    } else {
        0.0
    }
}
