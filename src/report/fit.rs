//! `fit --json`: every size of a lesson with its whole schedule, and what another gauge or a finished piece makes of it.

use serde::Serialize;

use crate::course::Terms;
use crate::course::body::Source;
use crate::course::{Band, Lesson};
use crate::ground::units::{Length, round_half_up, stitches_per_10cm};
use crate::piece::schedule::RoundWork;
use crate::piece::time::{self, Hours};
use crate::piece::yarn::{self, Basis};
use crate::piece::{Piece, Stage, StageKind, body_range};
use crate::report::fraction;
use crate::words::{CraftWords, Wording, round_words, spread_words};
use crate::words::{measured_name, part_of_piece};

/// The whole document.
#[derive(Debug, Serialize)]
pub struct FitReport {
    format: &'static str,
    lessons: Vec<LessonFit>,
    #[serde(skip_serializing_if = "Option::is_none")]
    finished: Option<FinishedEntry>,
}

/// A lesson in all its sizes.
#[derive(Debug, Serialize)]
pub struct LessonFit {
    id: String,
    makes: &'static str,
    #[serde(serialize_with = "fraction")]
    gauge: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    your_gauge: Option<f64>,
    sizes: Vec<SizeEntry>,
    #[serde(skip_serializing_if = "Option::is_none")]
    no_counts: Option<String>,
}

#[derive(Debug, Serialize)]
struct SizeEntry {
    id: Option<String>,
    label: Option<String>,
    body: Option<BodyEntry>,
    target_mm: Option<f64>,
    cast_on: usize,
    stitches: usize,
    repeats: usize,
    girth_mm: f64,
    error_mm: f64,
    error_percent: f64,
    fits_mm: Option<[f64; 2]>,
    #[serde(skip_serializing_if = "Option::is_none")]
    yours: Option<YoursEntry>,
    measures_mm: Vec<(&'static str, f64)>,
    parts: Vec<PartEntry>,
    yarn: Option<YarnEntry>,
    hours: HoursEntry,
}

#[derive(Debug, Serialize)]
struct BodyEntry {
    part: &'static str,
    mm: f64,
    source: &'static str,
}

/// What your gauge makes of a size.
#[derive(Debug, Serialize)]
struct YoursEntry {
    girth_mm: f64,
    fits_mm: Option<[f64; 2]>,
    whom: Vec<String>,
}

#[derive(Debug, Serialize)]
struct PartEntry {
    name: &'static str,
    times: usize,
    stages: Vec<StageEntry>,
}

#[derive(Debug, Serialize)]
struct StageEntry {
    what: String,
    rounds: usize,
    before: usize,
    after: usize,
    #[serde(skip_serializing_if = "Option::is_none")]
    how: Option<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    counts: Vec<usize>,
}

#[derive(Debug, Serialize)]
struct YarnEntry {
    basis: &'static str,
    colours: Vec<ColourEntry>,
}

#[derive(Debug, Serialize)]
struct ColourEntry {
    name: String,
    stitches: f64,
    metres: Option<f64>,
    grams: Option<f64>,
    buy_metres: Option<f64>,
    buy_grams: Option<f64>,
    balls: Option<u32>,
}

#[derive(Debug, Serialize)]
struct HoursEntry {
    fluent: [f64; 2],
    class: [f64; 2],
}

/// A finished piece: its gauge, whom it fits, the needle to take next.
#[derive(Debug, Serialize)]
pub struct FinishedEntry {
    stitches: usize,
    girth_mm: f64,
    gauge: f64,
    fits_mm: Option<[f64; 2]>,
    whom: Vec<String>,
    next_needle_mm: Option<f64>,
}

fn one(value: f64) -> f64 {
    round_half_up(value, 1)
}

fn mm(length: Length) -> f64 {
    one(length.to_mm())
}

fn both((from, to): (Length, Length)) -> [f64; 2] {
    [mm(from), mm(to)]
}

fn hours(hours: Hours) -> [f64; 2] {
    [one(hours.from), one(hours.to)]
}

impl FitReport {
    /// From lessons and a finished piece.
    #[must_use]
    pub fn new(lessons: Vec<LessonFit>, finished: Option<FinishedEntry>) -> Self {
        Self {
            format: "yokeward/fit/1",
            lessons,
            finished,
        }
    }
}

impl FinishedEntry {
    /// A piece of so many stitches and this girth.
    #[must_use]
    pub fn new(
        stitches: usize,
        girth: Length,
        fits: Option<(Length, Length)>,
        whom: Vec<String>,
        needle: Option<Length>,
    ) -> Self {
        Self {
            stitches,
            girth_mm: mm(girth),
            gauge: round_half_up(stitches_per_10cm(stitches as f64, girth), 4),
            fits_mm: fits.map(both),
            whom,
            next_needle_mm: needle.map(mm),
        }
    }
}

impl LessonFit {
    /// From the schedules of a lesson; `yours` is your gauge in stitches to 10 cm, and `whom` names the sizes that a
    /// girth fits.
    #[must_use]
    pub fn new(
        lesson: &Lesson,
        pieces: &[Piece],
        no_counts: Option<String>,
        yours: Option<f64>,
        whom: &dyn Fn(Length) -> Vec<String>,
    ) -> Self {
        Self {
            id: lesson.id.clone(),
            makes: lesson.makes.name(),
            gauge: lesson.colourwork.gauge.stitches,
            your_gauge: yours,
            sizes: pieces
                .iter()
                .map(|piece| size(lesson, piece, yours, whom))
                .collect(),
            no_counts,
        }
    }
}

fn size(
    lesson: &Lesson,
    piece: &Piece,
    yours: Option<f64>,
    whom: &dyn Fn(Length) -> Vec<String>,
) -> SizeEntry {
    let range = |girth: Length| {
        let adult = piece.size.as_ref().is_none_or(|size| size.adult);
        body_range(lesson.makes, girth, lesson.ease, adult).map(both)
    };
    let body = piece.size.as_ref().map(|size| {
        let (part, girth, source) = lesson.makes.girth_of(size);
        BodyEntry {
            part,
            mm: mm(girth),
            source: Source::name(source),
        }
    });
    let spent = time::of_piece(lesson, piece);
    SizeEntry {
        id: piece.size.as_ref().map(|size| size.id.clone()),
        label: piece.size.as_ref().map(|size| size.label.clone()),
        body,
        target_mm: piece.target.map(mm),
        cast_on: piece.cast_on(),
        stitches: piece.main.stitches,
        repeats: piece.repeats,
        girth_mm: mm(piece.main.girth),
        error_mm: mm(piece.main.error),
        error_percent: one(piece.main.percent),
        fits_mm: range(piece.main.girth),
        yours: yours.map(|gauge| {
            let girth =
                Length::mm(piece.main.girth.to_mm() * lesson.colourwork.gauge.stitches / gauge);
            YoursEntry {
                girth_mm: mm(girth),
                fits_mm: range(girth),
                whom: whom(girth),
            }
        }),
        measures_mm: piece
            .finished
            .iter()
            .map(|f| (measured_name(f.what), mm(f.length)))
            .collect(),
        parts: piece
            .parts
            .iter()
            .map(|part| PartEntry {
                name: part_of_piece(part.name).unwrap_or(""),
                times: part.times,
                stages: part.stages.iter().map(|s| stage(lesson, s)).collect(),
            })
            .collect(),
        yarn: yarn::amounts(lesson, piece).map(|(basis, amounts)| YarnEntry {
            basis: match basis {
                Basis::Weighed => "weighed swatch",
                Basis::Loops => "loop length and floats",
            },
            colours: lesson
                .yarns
                .iter()
                .zip(amounts)
                .map(|(yarn, amount)| ColourEntry {
                    name: yarn.name.clone(),
                    stitches: one(amount.stitches),
                    metres: amount.metres.map(one),
                    grams: amount.grams.map(one),
                    buy_metres: amount.buy_metres.map(one),
                    buy_grams: amount.buy_grams.map(one),
                    balls: amount.balls,
                })
                .collect(),
        }),
        hours: HoursEntry {
            fluent: hours(spent.fluent()),
            class: hours(spent.in_class()),
        },
    }
}

fn stage(lesson: &Lesson, stage: &Stage) -> StageEntry {
    let says = CraftWords::of(lesson, Wording::of(Terms::default()));
    let verbs = &says.verbs();
    let (what, how) = match &stage.kind {
        StageKind::CastOn => ("cast on".to_owned(), None),
        StageKind::Rib(_) => ("rib".to_owned(), None),
        StageKind::Plain(..) => ("plain".to_owned(), None),
        StageKind::Band(band, repeats) => match lesson.bands.get(*band) {
            Some(Band::Chart { what, .. }) => (
                format!("chart {}", what.chart.id),
                Some(format!("{repeats} repeats")),
            ),
            _ => ("side by side".to_owned(), None),
        },
        StageKind::Change(spread) => (
            "change".to_owned(),
            (spread.changes() > 0).then(|| spread_words(spread, verbs)),
        ),
        StageKind::Rounds(_) => ("shaping rounds".to_owned(), None),
        StageKind::Increases { first, every } => {
            let every: Vec<String> = every
                .iter()
                .map(|run| format!("every {} × {}", run.gap, run.times))
                .collect();
            let how = format!("round {first}, then {}", every.join(", "));
            ("increases at the seam line".to_owned(), Some(how))
        }
        StageKind::Hold(held) => ("set aside".to_owned(), Some(format!("{held} each"))),
        StageKind::Join {
            body,
            sleeve,
            underarm,
        } => (
            "join".to_owned(),
            Some(format!(
                "{body} − 2 × {underarm} + 2 × ({sleeve} − {underarm})"
            )),
        ),
        StageKind::Opening { held, round } => (
            "thumb opening".to_owned(),
            Some(format!("{held} stitches, in round {round} from here")),
        ),
        StageKind::PickUp(_) => ("pick up".to_owned(), None),
        StageKind::ShortRows(turns) => {
            let past: Vec<String> = turns.iter().map(|t| t.past_centre.to_string()).collect();
            ("short rows".to_owned(), Some(past.join(", ")))
        }
        StageKind::CastOff => ("cast off".to_owned(), None),
        StageKind::DrawUp => ("draw up".to_owned(), None),
    };
    let (counts, how) = match &stage.kind {
        StageKind::Rounds(rounds) => {
            let words: Vec<String> = rounds
                .iter()
                .filter(|round| round.work != RoundWork::Plain)
                .map(|round| round_words(&round.work, round.after, verbs))
                .collect();
            let counts = rounds.iter().map(|round| round.after).collect();
            (counts, Some(words.join("; ")))
        }
        _ => (Vec::new(), how),
    };
    StageEntry {
        what,
        rounds: stage.rounds,
        before: stage.before,
        after: stage.after,
        how,
        counts,
    }
}
