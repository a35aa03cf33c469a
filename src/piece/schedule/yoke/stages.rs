//! The whole yoke: the best pieces and counts, and every stage from the join to the neck.

use crate::ground::units::Length;
use crate::piece::schedule::bounds::MOST_STITCHES;
use crate::piece::schedule::even::{Ends, Spread, spread};
use crate::piece::schedule::yoke::advice::no_way;
use crate::piece::schedule::yoke::layout::{Layout, curve, layout};
use crate::piece::schedule::yoke::parts::{
    DepthRule, Ground, NeckRule, Parts, ground, relative, variants,
};
use crate::piece::schedule::yoke::solve::{Way, cheapest, counts_in_band, reach};
use crate::piece::schedule::yoke::{YokeError, YokeWish};

/// A yoke in numbers.
#[derive(Clone, Debug, PartialEq)]
pub struct Yoke {
    /// Body, cuff, sleeve and underarm.
    pub parts: Parts,
    /// The body's girth.
    pub body_girth: Length,
    /// That less chest and ease, in per cent of these.
    pub body_percent: f64,
    /// Stitches of the joined round.
    pub joined: usize,
    /// Stitches of the neck, beneath the rib.
    pub neck: usize,
    /// Their girth at the plain gauge.
    pub neck_girth: Length,
    /// What decided the neck.
    pub neck_rule: NeckRule,
    /// How deep the rounds from the join to the neck are; neck rib and short rows come on top.
    pub depth: Length,
    /// What decided the depth.
    pub depth_rule: DepthRule,
    /// Rounds from the join to the neck.
    pub rounds: usize,
    /// The bands, upwards.
    pub bands: Vec<BandPlan>,
    /// All stages, each beginning with the count that the one before left.
    pub stages: Vec<YokeStage>,
}

/// A band of a yoke.
#[derive(Clone, Debug, PartialEq)]
pub struct BandPlan {
    /// Stitches at its beginning.
    pub before: usize,
    /// Repeats.
    pub repeats: usize,
    /// Stitches after each of its rounds.
    pub counts: Vec<usize>,
    /// What the curve asks for, on the average of its rounds, unrounded.
    pub wanted: f64,
    /// The average of its counts less that, in per cent of it.
    pub percent: f64,
}

/// A stretch of rounds of one kind.
#[derive(Clone, Debug, PartialEq)]
pub struct YokeStage {
    /// What is worked.
    pub kind: YokeStageKind,
    /// Rounds; short rows count as none.
    pub rounds: usize,
    /// Stitches at the beginning.
    pub before: usize,
    /// Stitches at the end.
    pub after: usize,
}

/// What a stage is.
#[derive(Clone, Debug, PartialEq)]
pub enum YokeStageKind {
    /// Plain rounds.
    Plain,
    /// A band, by its index.
    Band(usize),
    /// One round that loses stitches evenly.
    Decrease(Spread),
    /// Short rows that raise the back of the neck, each ending with a turn.
    ShortRows(Vec<Turn>),
}

/// Where a short row turns. Rows run to and fro across the centre back, so turns lie on both sides in turn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Turn {
    /// Stitches past the centre back.
    pub past_centre: usize,
}

/// Pairs of short rows: about six rows. Source: Zimmermann's yoke, from readers' summaries.
const PAIRS: usize = 3;

/// Fewer stitches of neck get no short rows.
const LEAST_FOR_SHORT_ROWS: usize = 24;

/// Works out a yoke.
///
/// The curve runs between the joined round and the neck as the percentages and rules give them. Of all ways from
/// pieces near those to a neck near that, the one is taken for which the sum of these is smallest: the mean squared
/// relative distance of the bands' rounds from the curve, four times the squared relative change of the body, and once
/// those of sleeve, underarm and neck (our weights). It is found exactly.
///
/// # Errors
/// See [`YokeError`]; [`YokeError::NoWay`] says where it stops and what would help.
pub fn plan(wish: &YokeWish) -> Result<Yoke, YokeError> {
    let ground = ground(wish)?;
    let layout = layout(wish, &ground)?;
    let given = (
        ground.parts.joined(),
        ground.necks.first().copied().unwrap_or(1),
    );
    let wanted = curve(wish, &layout, given.0, given.1);
    let best = choose(wish, &ground, &wanted)
        .ok_or_else(|| YokeError::NoWay(Box::new(no_way(wish, &ground))))?;
    let stages = stages(wish, &layout, &best)?;
    let (parts, neck) = (best.parts, best.neck);
    let girth = |stitches: usize| wish.plain.width(stitches as f64);
    let target = ground.target.to_mm();
    Ok(Yoke {
        parts,
        body_girth: girth(parts.body),
        body_percent: 100.0 * (girth(parts.body).to_mm() - target) / target,
        joined: parts.joined(),
        neck,
        neck_girth: girth(neck),
        neck_rule: ground.neck_rule,
        depth: layout.made,
        depth_rule: layout.rule,
        rounds: stages.iter().map(|stage| stage.rounds).sum(),
        bands: band_plans(wish, &best, &wanted),
        stages,
    })
}

/// Pieces, neck and the way between them.
struct Choice {
    parts: Parts,
    neck: usize,
    ways: Vec<Way>,
}

/// The cheapest way from any variant of the pieces to any count of the neck.
fn choose(wish: &YokeWish, ground: &Ground, wanted: &[Vec<f64>]) -> Option<Choice> {
    let variants = variants(ground, wish.plain.stitches);
    // Changes weigh against the mean over the rounds, distances are summed over them.
    let rounds = wish
        .bands
        .iter()
        .map(|band| band.rounds)
        .sum::<usize>()
        .max(1) as f64;
    let starts: Vec<(usize, f64)> = variants
        .iter()
        .map(|variant| (variant.parts.joined(), variant.change * rounds))
        .collect();
    let reached = reach(wish, &starts, wanted);
    let best_neck = *ground.necks.first()?;
    let mut best: Option<(f64, usize, Vec<Way>)> = None;
    for neck in &ground.necks {
        let Some((ways, distance)) = cheapest(wish, &reached, *neck) else {
            continue;
        };
        let cost = distance + rounds * relative(*neck, best_neck);
        if best.as_ref().is_none_or(|(least, ..)| cost < *least) {
            best = Some((cost, *neck, ways));
        }
    }
    let (_, neck, ways) = best?;
    let (joined, ways) = ways.split_first()?;
    let parts = variants
        .iter()
        .find(|variant| variant.parts.joined() == joined.top)?
        .parts;
    Some(Choice {
        parts,
        neck,
        ways: ways.to_vec(),
    })
}

fn stages(wish: &YokeWish, layout: &Layout, choice: &Choice) -> Result<Vec<YokeStage>, YokeError> {
    let mut stages = Vec::new();
    let mut count = choice.parts.joined();
    for (at, gap) in layout.gaps.iter().enumerate() {
        let way = choice.ways.get(at);
        let next = way.map_or(choice.neck, |way| way.count);
        let plain = gap.saturating_sub(usize::from(next != count));
        if plain > 0 {
            stages.push(YokeStage {
                kind: YokeStageKind::Plain,
                rounds: plain,
                before: count,
                after: count,
            });
        }
        if next != count {
            let lost = spread(count, next, Ends::Round).map_err(|_| YokeError::TooLarge)?;
            stages.push(YokeStage {
                kind: YokeStageKind::Decrease(lost),
                rounds: 1,
                before: count,
                after: next,
            });
        }
        count = next;
        if let (Some(way), Some(band)) = (way, wish.bands.get(at)) {
            stages.push(YokeStage {
                kind: YokeStageKind::Band(at),
                rounds: band.rounds,
                before: count,
                after: way.top,
            });
            count = way.top;
        }
    }
    if (LEAST_FOR_SHORT_ROWS..=MOST_STITCHES).contains(&count) {
        stages.push(YokeStage {
            kind: YokeStageKind::ShortRows(short_rows(count)),
            rounds: 0,
            before: count,
            after: count,
        });
    }
    Ok(stages)
}

/// Turns of three pairs of short rows over a neck of so many stitches: a ninth, two ninths and a third of it past the
/// centre back, so that the front third stays as it is. Common practice, no source.
fn short_rows(neck: usize) -> Vec<Turn> {
    (1..=PAIRS)
        .flat_map(|pair| {
            let past_centre = pair * neck / (3 * PAIRS);
            [Turn { past_centre }; 2]
        })
        .collect()
}

fn band_plans(wish: &YokeWish, choice: &Choice, wanted: &[Vec<f64>]) -> Vec<BandPlan> {
    let both = wish.bands.iter().zip(&choice.ways).zip(wanted);
    both.map(|((band, way), wanted)| {
        let repeats = band.fit.repeats(way.count).unwrap_or(0);
        let counts = counts_in_band(band.fit, &band.shaped, band.rounds, repeats);
        let rounds = band.rounds.max(1) as f64;
        let mean_wanted = wanted.iter().sum::<f64>() / rounds;
        let mean = counts.iter().sum::<usize>() as f64 / rounds;
        BandPlan {
            before: way.count,
            repeats,
            counts,
            wanted: mean_wanted,
            percent: 100.0 * (mean - mean_wanted) / mean_wanted,
        }
    })
    .collect()
}
