//! Why no counts lead from the joined round to the neck, and which changes were found to help.

use crate::piece::schedule::multiple::Fit;
use crate::piece::schedule::yoke::layout::{layout, loss_at};
use crate::piece::schedule::yoke::parts::{Ground, ground, variants};
use crate::piece::schedule::yoke::solve::{Reach, reach, reaches};
use crate::piece::schedule::yoke::{Loss, YokeWish};

/// A place of the yoke.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum YokePlace {
    /// A band, by its index.
    Band(usize),
    /// The neck.
    Neck,
}

/// The lowest place that cannot be reached.
#[derive(Clone, Debug, PartialEq)]
pub struct NoWay {
    /// Where it stops.
    pub place: YokePlace,
    /// What that place asks of its count.
    pub fit: Fit,
    /// The neck's count, if that is the place.
    pub neck: Option<usize>,
    /// The fewest and the most stitches that can lie beneath it, the body changed by up to three per cent.
    pub beneath: (usize, usize),
    /// How the count may change there.
    pub loss: Loss,
    /// The fewest and the most stitches that the place could then have.
    pub allowed: (usize, usize),
    /// The largest count of its repeat that is not above those.
    pub fewer: Option<usize>,
    /// The next larger count of its repeat.
    pub more: Option<usize>,
    /// Single changes that lead to a yoke, each tried: places for decreases, the nearest first, then repeats. Empty
    /// if none does.
    pub remedies: Vec<YokeRemedy>,
}

/// A change to the wish that was found to lead to a yoke.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum YokeRemedy {
    /// A place for decreases beneath this band or the neck.
    DecreaseBefore(YokePlace),
    /// Another repeat for the band.
    Repeat {
        /// Index of the band.
        band: usize,
        /// Stitches of the repeat.
        multiple: usize,
    },
    /// Places for decreases beneath every band and the neck.
    DecreaseEverywhere,
}

/// How far from its own width another repeat is looked for, in stitches.
const NEARBY: usize = 6;

/// How many other repeats are named.
const NAMED: usize = 2;

/// All that can be reached from any variant of the pieces.
fn reached(wish: &YokeWish, ground: &Ground) -> Reach {
    let variants = variants(ground, wish.plain.stitches);
    let starts: Vec<(usize, f64)> = variants.iter().map(|v| (v.parts.joined(), 0.0)).collect();
    reach(wish, &starts, &[])
}

/// Whether any yoke comes of this wish.
fn works(wish: &YokeWish) -> bool {
    ground(wish).is_ok_and(|ground| {
        let reach = reached(wish, &ground);
        layout(wish, &ground).is_ok()
            && ground.necks.iter().any(|neck| reaches(wish, &reach, *neck))
    })
}

/// Explains a wish that leads to no yoke.
pub(super) fn no_way(wish: &YokeWish, ground: &Ground) -> NoWay {
    let reach = reached(wish, ground);
    let stuck = reach.iter().position(Vec::is_empty);
    // Entry 0 holds the joined rounds, so the ways beneath band i are entry i.
    let at = stuck.map_or(wish.bands.len(), |entry| entry.saturating_sub(1));
    let (place, fit, neck) = match wish.bands.get(at) {
        Some(band) => (YokePlace::Band(at), band.fit, None),
        None => (
            YokePlace::Neck,
            Fit::of(wish.rib),
            ground.necks.first().copied(),
        ),
    };
    let tops = reach.get(at).map_or(&[][..], Vec::as_slice);
    let beneath = (
        tops.first().map_or(0, |way| way.top),
        tops.last().map_or(0, |way| way.top),
    );
    let loss = loss_at(wish, at);
    let least = match loss {
        Loss::Keep => beneath.0,
        Loss::Adjust => (9 * beneath.0).div_ceil(10),
        Loss::Decrease => (6 * beneath.0).saturating_sub(5).div_ceil(10),
    };
    let counts = fit.counts();
    let fewer = counts.and_then(|counts| counts.at_most(beneath.1 as f64));
    NoWay {
        place,
        fit,
        neck,
        beneath,
        loss,
        allowed: (least, beneath.1),
        fewer,
        more: counts.and_then(|counts| counts.above(fewer)),
        remedies: remedies(wish, at),
    }
}

fn remedies(wish: &YokeWish, stuck: usize) -> Vec<YokeRemedy> {
    let mut found = Vec::new();
    // The nearer to where it stops, the better it answers the question; of two equally near the lower.
    let mut places: Vec<usize> = (0..=wish.bands.len()).collect();
    places.sort_by_key(|at| at.abs_diff(stuck));
    for at in places {
        let mut changed = wish.clone();
        let Some(place) = allow(&mut changed, at) else {
            continue;
        };
        if works(&changed) {
            found.push(YokeRemedy::DecreaseBefore(place));
        }
    }
    if let Some(band) = wish.bands.get(stuck).filter(|band| band.shaped.is_empty()) {
        let own = band.fit.multiple;
        let nearby = (1..=NEARBY).flat_map(|off| [own.checked_sub(off), own.checked_add(off)]);
        let other = |multiple: &usize| {
            let mut changed = wish.clone();
            if let Some(band) = changed.bands.get_mut(stuck) {
                band.fit.multiple = *multiple;
            }
            *multiple > 1 && works(&changed)
        };
        let repeats = nearby.flatten().filter(other).take(NAMED);
        found.extend(repeats.map(|multiple| YokeRemedy::Repeat {
            band: stuck,
            multiple,
        }));
    }
    if found.is_empty() {
        let mut changed = wish.clone();
        let allowed = (0..=wish.bands.len()).filter(|at| allow(&mut changed, *at).is_some());
        if allowed.count() > 1 && works(&changed) {
            found.push(YokeRemedy::DecreaseEverywhere);
        }
    }
    found
}

/// Makes a place for decreases beneath band `at` or the neck. `None` if there is one already.
fn allow(wish: &mut YokeWish, at: usize) -> Option<YokePlace> {
    let bands = wish.bands.len();
    let (loss, place) = match wish.bands.get_mut(at) {
        Some(band) => (&mut band.loss, YokePlace::Band(at)),
        None if at == bands => (&mut wish.neck_loss, YokePlace::Neck),
        None => return None,
    };
    if *loss == Loss::Decrease {
        return None;
    }
    *loss = Loss::Decrease;
    Some(place)
}
