//! Body, cuff, sleeve, underarm and neck of a yoke, and how deep it is.

use std::collections::BTreeMap;

use crate::ground::units::{Length, stitches_in, width_of};
use crate::piece::schedule::bounds::{MOST_STITCHES, is_positive, nearest_even, whole};
use crate::piece::schedule::multiple::Fit;
use crate::piece::schedule::yoke::{Measure, YokeError, YokeWish};

/// What decided the neck.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NeckRule {
    /// The percentage of the body.
    Percentage,
    /// 0.72 of the head girth: a knitted neck stretches by about two fifths. Common practice, no source.
    Head,
    /// The base of the neck and 8 cm. Common practice, no source.
    NeckBase,
}

/// What decided the depth.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DepthRule {
    /// The percentage of the body's girth.
    Percentage,
    /// The armhole and 4 cm. Common practice, no source.
    Armhole,
    /// The bands: they need up to 3 cm more than the other two rules give.
    Bands,
}

/// Share of the head girth that a neck must have at least.
pub(super) const HEAD_SHARE: f64 = 0.72;

/// How much wider than the base of the neck a neck may be, in millimetres.
pub const NECK_OVER: Length = Length::mm(80.0);

/// How much deeper than the armhole a yoke may be, in millimetres.
pub const ARMHOLE_OVER: Length = Length::mm(40.0);

/// Fewer stitches in the body make no yoke.
const LEAST_BODY: usize = 16;

/// The pieces that are joined.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Parts {
    /// Body, even, so that front and back are equal.
    pub body: usize,
    /// Cuff: even, and a multiple of the rib.
    pub cuff: usize,
    /// Upper sleeve, even.
    pub sleeve: usize,
    /// Set aside at each underarm, on body and sleeve alike; even.
    pub underarm: usize,
}

impl Parts {
    /// Stitches where body and sleeves are joined: K − 2u + 2 (s − u).
    #[must_use]
    pub const fn joined(self) -> usize {
        (self.body + 2 * self.sleeve).saturating_sub(4 * self.underarm)
    }
}

/// A sound wish in stitches.
#[derive(Clone, Debug)]
pub(super) struct Ground {
    /// The pieces as the percentages give them.
    pub(super) parts: Parts,
    /// Girth aimed at for the body.
    pub(super) target: Length,
    /// What decided the neck.
    pub(super) neck_rule: NeckRule,
    /// Counts the neck may have, the best first.
    pub(super) necks: Vec<usize>,
    /// How deep the yoke may be.
    pub(super) depth: Length,
    /// What decided that.
    pub(super) depth_rule: DepthRule,
}

/// Checks all measures and works out the pieces.
pub(super) fn ground(wish: &YokeWish) -> Result<Ground, YokeError> {
    check(wish)?;
    let share = wish.percentages;
    let target = wish.chest.to_mm() + wish.ease.to_mm();
    let gauge = wish.plain.stitches;
    let body = nearest_even(stitches_in(Length::mm(target), gauge)).ok_or(YokeError::TooLarge)?;
    if body < LEAST_BODY {
        return Err(YokeError::TooFew { body });
    }
    let of_body = |share: f64| nearest_even(share * body as f64).ok_or(YokeError::TooLarge);
    let sleeve = match wish.upper_sleeve {
        Some(girth) => nearest_even(stitches_in(girth, gauge)).ok_or(YokeError::TooLarge)?,
        None => of_body(share.sleeve)?,
    };
    let underarm = of_body(share.underarm)?.max(2);
    // Two ribs of an odd repeat make an even cuff.
    let rib = if wish.rib.is_multiple_of(2) {
        wish.rib
    } else {
        2 * wish.rib
    };
    let cuff = Fit::of(rib)
        .counts()
        .and_then(|counts| counts.nearest(cuff_wanted(wish, share.cuff * body as f64)))
        .ok_or(YokeError::BadMeasure(Measure::Rib))?;
    let parts = Parts {
        body,
        cuff,
        sleeve,
        underarm,
    };
    if sleeve <= underarm || body <= 2 * underarm {
        return Err(YokeError::TooFew { body });
    }
    if parts.joined() > MOST_STITCHES {
        return Err(YokeError::TooLarge);
    }
    let girth = width_of(body as f64, gauge).to_mm();
    let (neck, neck_rule) = neck_girth(wish, girth);
    let quarter = share.depth * girth;
    let (depth, depth_rule) = match wish.armhole.map(|a| a.to_mm() + ARMHOLE_OVER.to_mm()) {
        Some(armhole) if armhole < quarter => (armhole, DepthRule::Armhole),
        _ => (quarter, DepthRule::Percentage),
    };
    Ok(Ground {
        parts,
        target: Length::mm(target),
        neck_rule,
        necks: necks(wish, stitches_in(Length::mm(neck), gauge), parts.joined())?,
        depth: Length::mm(depth),
        depth_rule,
    })
}

/// Stitches of a cuff: the percentage, but no wider than the wrist and its ease.
fn cuff_wanted(wish: &YokeWish, by_percent: f64) -> f64 {
    let wrist = wish.wrist.map(|wrist| {
        let wide = Length::mm(wrist.to_mm() + wish.wrist_ease.to_mm());
        stitches_in(wide, wish.plain.stitches)
    });
    wrist.map_or(by_percent, |wrist| wrist.min(by_percent))
}

/// The neck's girth in millimetres: the percentage, not wider than its base and 8 cm, the head winning over both.
fn neck_girth(wish: &YokeWish, girth: f64) -> (f64, NeckRule) {
    let mut neck = (wish.percentages.neck * girth, NeckRule::Percentage);
    if let Some(base) = wish.neck_base.map(|base| base.to_mm() + NECK_OVER.to_mm())
        && base < neck.0
    {
        neck = (base, NeckRule::NeckBase);
    }
    if let Some(head) = wish.head.map(|head| HEAD_SHARE * head.to_mm())
        && head > neck.0
    {
        neck = (head, NeckRule::Head);
    }
    neck
}

/// The counts a neck may have: multiples of the rib no more than one of them from `wanted` stitches (the nearest in any
/// case), none too narrow for the head; the nearest first, of equals the larger.
fn necks(wish: &YokeWish, wanted: f64, joined: usize) -> Result<Vec<usize>, YokeError> {
    let head = wish.head.map_or(0.0, |head| {
        HEAD_SHARE * stitches_in(head, wish.plain.stitches)
    });
    // As with all counts, a hair below a whole number is that number.
    let least = (head - 1e-9).ceil().max(1.0);
    let counts = Fit::of(wish.rib)
        .counts()
        .ok_or(YokeError::BadMeasure(Measure::Rib))?;
    let wide_enough = counts.above(counts.at_most(least - 0.5));
    let mut necks: Vec<usize> = Vec::new();
    let repeat = wish.rib as f64 + 1e-9;
    let mut next = counts
        .above(counts.at_most(wanted - repeat - 1e-6))
        .max(wide_enough);
    while let Some(count) = next.filter(|count| *count as f64 <= wanted + repeat) {
        necks.push(count);
        next = counts.above(Some(count));
    }
    let nearest = counts.nearest(wanted).max(wide_enough);
    necks.extend(nearest.filter(|count| !necks.contains(count)));
    let miss = |count: usize| (count as f64 - wanted).abs();
    necks.sort_by(|a, b| miss(*a).total_cmp(&miss(*b)).then(b.cmp(a)));
    match necks.first() {
        None => Err(YokeError::TooLarge),
        Some(neck) if *neck > joined => Err(YokeError::NeckTooWide {
            neck: *neck,
            joined,
        }),
        Some(_) => Ok(necks),
    }
}

fn check(wish: &YokeWish) -> Result<(), YokeError> {
    use Measure::{
        Armhole, Chest, ColourworkGauge, Head, NeckBase, PlainGauge, Rib, UpperSleeve, Wrist,
    };
    let share = wish.percentages;
    let optional = |length: Option<Length>| length.is_none_or(|length| is_positive(length.to_mm()));
    let steps_fall = share
        .steps
        .iter()
        .all(|(at, keep)| (0.0..=1.0).contains(at) && *keep > 0.0 && *keep <= 1.0);
    let shares = [
        share.sleeve,
        share.cuff,
        share.underarm,
        share.neck,
        share.depth,
    ];
    let sound = [
        (
            Chest,
            is_positive(wish.chest.to_mm())
                && wish.ease.to_mm().is_finite()
                && is_positive(wish.chest.to_mm() + wish.ease.to_mm()),
        ),
        (Head, optional(wish.head)),
        (NeckBase, optional(wish.neck_base)),
        (Armhole, optional(wish.armhole)),
        (UpperSleeve, optional(wish.upper_sleeve)),
        (
            Wrist,
            optional(wish.wrist) && wish.wrist_ease.to_mm().is_finite(),
        ),
        (
            PlainGauge,
            is_positive(wish.plain.stitches) && is_positive(wish.plain.rows),
        ),
        (
            ColourworkGauge,
            is_positive(wish.colourwork.stitches) && is_positive(wish.colourwork.rows),
        ),
        (Rib, wish.rib > 0 && wish.rib <= MOST_STITCHES / 2),
        (
            Measure::Percentages,
            steps_fall && shares.iter().all(|s| is_positive(*s) && *s < 1.0),
        ),
    ];
    match sound.iter().find(|(_, sound)| !sound) {
        Some((measure, _)) => Err(YokeError::BadMeasure(*measure)),
        None => Ok(()),
    }
}

/// The squared relative change from `usual` to `count`.
pub(super) fn relative(count: usize, usual: usize) -> f64 {
    (count.abs_diff(usual) as f64 / usual.max(1) as f64).powi(2)
}

/// The pieces, changed a little so that a band may be reached, and what the change weighs.
#[derive(Clone, Copy, Debug)]
pub(super) struct Variant {
    /// The pieces.
    pub(super) parts: Parts,
    /// Four times the squared relative change of the body, once those of sleeve and underarm.
    pub(super) change: f64,
}

/// Variants of the pieces: the body within three per cent of its girth, sleeve and underarm within two stitches. Of
/// those with the same joined round the least changed (of equals the larger body); ascending by the joined round.
pub(super) fn variants(ground: &Ground, gauge: f64) -> Vec<Variant> {
    let first = ground.parts;
    let target = stitches_in(ground.target, gauge);
    let low = whole((target * 0.97).ceil()).unwrap_or(first.body);
    let high = whole((target * 1.03).floor()).unwrap_or(first.body);
    let near = |usual: usize| [usual, usual + 2, usual.saturating_sub(2)];
    let mut found: BTreeMap<usize, Variant> = BTreeMap::new();
    let bodies = (low..=high).filter(|body| body % 2 == 0);
    for body in bodies.chain([first.body]) {
        for sleeve in near(first.sleeve) {
            for underarm in near(first.underarm) {
                let parts = Parts {
                    body,
                    sleeve,
                    underarm,
                    ..first
                };
                let sound = underarm >= 2 && sleeve > underarm && body > 2 * underarm;
                if !sound || parts.joined() > MOST_STITCHES {
                    continue;
                }
                let change = 4.0 * relative(body, first.body)
                    + relative(sleeve, first.sleeve)
                    + relative(underarm, first.underarm);
                let variant = Variant { parts, change };
                let known = found.entry(parts.joined()).or_insert(variant);
                // Bodies ascend, so an equal change is a larger body.
                if change <= known.change {
                    *known = variant;
                }
            }
        }
    }
    found.into_values().collect()
}
