//! The finished piece as a picture: its rounds with their colours, in the learner's size or the middle one.

use crate::course::body::Makes;
use crate::course::{Band, ChartUse, Lesson, Units, middle};
use crate::ground::colour::Rgb;
use crate::ground::units::Length;
use crate::handout::Print;
use crate::picture::{DrawnCourse, JerseyShape, Look, Tube, YokeCircle, in_greys};
use crate::piece::{Measured, PartName, Piece, PiecePart, Stage, StageKind};
use crate::rows::drawn;
use crate::study::Studied;
use crate::words::length_text;
use crate::words::pictures::{measured_text, neck_stitches, piece_alt, round_about, yoke_alt};

/// A piece to be drawn.
#[derive(Clone, Debug)]
pub enum FinishedPiece {
    /// A tube.
    Tube(Tube),
    /// A jersey in outline.
    Jersey(JerseyShape),
}

/// A yoke from above.
#[derive(Clone, Debug)]
pub struct YokeView {
    /// The picture.
    pub circle: YokeCircle,
    /// The size shown.
    pub size: String,
}

/// The colours of a lesson's yarns as they are printed: for a printer of black only, greys.
pub(super) fn tones(lesson: &Lesson, print: &Print) -> Vec<Rgb> {
    let colours: Vec<Rgb> = lesson.yarns.iter().map(|yarn| yarn.rgb).collect();
    match print.is_black() {
        true => in_greys(&colours),
        false => colours,
    }
}

/// The piece that is shown: the learner's own size, else the middle one.
pub(super) fn shown(pieces: &[Piece], yours: Option<usize>) -> Option<&Piece> {
    match yours {
        Some(yours) => pieces.get(yours),
        None => middle(pieces),
    }
}

/// The picture of a piece; none of flat things, of which the fabric shows all there is.
pub(super) fn shape(
    lesson: &Lesson,
    piece: &Piece,
    studied: &Studied<'_>,
    print: &Print,
    units: Units,
) -> Option<FinishedPiece> {
    piece.size.as_ref()?;
    let label = piece.size.as_ref().map_or("", |size| size.label.as_str());
    let hidden = lesson
        .charts()
        .iter()
        .any(|what| !what.chart.rights.may_print());
    let finished = piece.finished.iter();
    let measures: Vec<String> = finished
        .map(|f| measured_text(f.what, f.length, units))
        .collect();
    let alt = piece_alt(&lesson.title, label, hidden, &measures);
    let measure = |what| measure_of(piece, what);
    if lesson.makes == Makes::Yoke {
        let jersey = jersey(lesson, (piece, studied), print, units, alt);
        return jersey.map(FinishedPiece::Jersey);
    }
    let part = piece.parts.first()?;
    let work = AsWorked::of(lesson, studied, print);
    let height = [Measured::Depth, Measured::Height, Measured::Length]
        .into_iter()
        .find_map(measure)?;
    let mut courses = work.courses(part);
    if lesson.crown_first {
        courses.reverse();
    }
    if courses.is_empty() || lesson.worked == crate::course::chart::Worked::Flat {
        return None;
    }
    let thumb = piece.parts.get(1).map(|thumb| {
        let picked = thumb.stages.first().map_or(0, |s| s.after);
        let rounds: usize = thumb.stages.iter().map(|s| s.rounds).sum();
        let mut beneath = 0;
        for stage in &part.stages {
            beneath += stage.rounds;
            if let StageKind::Opening { round, .. } = stage.kind {
                beneath += round - 1;
                break;
            }
        }
        let gauge = lesson.plain_gauge();
        let girth = gauge.width(picked as f64).to_mm();
        (girth, gauge.height(rounds as f64).to_mm(), beneath)
    });
    Some(FinishedPiece::Tube(Tube {
        look: work.look(&courses),
        courses,
        thumb,
        height: length_text(height, units),
        girth: round_about(piece.main.girth, units),
        alt,
    }))
}

/// A finished measure.
fn measure_of(piece: &Piece, what: Measured) -> Option<Length> {
    piece
        .finished
        .iter()
        .find(|f| f.what == what)
        .map(|f| f.length)
}

/// A jersey's outline from its finished measures.
fn jersey(
    lesson: &Lesson,
    (piece, studied): (&Piece, &Studied<'_>),
    print: &Print,
    units: Units,
    alt: String,
) -> Option<JerseyShape> {
    let measure = |what| measure_of(piece, what);
    let gauge = lesson.plain_gauge();
    let cuff = piece.parts.get(1)?.stages.first()?.after;
    let cuff = gauge.width(cuff as f64).to_mm();
    let (chest, upper) = (measure(Measured::Chest)?, measure(Measured::UpperSleeve)?);
    let (body, sleeve) = (
        measure(Measured::HemToUnderarm)?,
        measure(Measured::SleeveToUnderarm)?,
    );
    let (depth, neck) = (measure(Measured::YokeDepth)?, measure(Measured::Neck)?);
    let rib = |part: &PiecePart| -> f64 {
        let ribs = part
            .stages
            .iter()
            .filter(|s| matches!(s.kind, StageKind::Rib(_)));
        ribs.map(|s| gauge.height(s.rounds as f64).to_mm()).sum()
    };
    let yoke = piece
        .parts
        .iter()
        .find(|part| part.name == PartName::Yoke)?;
    let work = AsWorked::of(lesson, studied, print);
    let courses = work.courses_until_rib(yoke);
    let text = |length| length_text(length, units);
    Some(JerseyShape {
        girths: [chest, upper, Length::mm(cuff), neck].map(|l| l.to_mm()),
        lengths: [body, sleeve, depth].map(|l| l.to_mm()),
        ribs: (piece.parts.first().map_or(0.0, rib), rib(yoke)),
        look: work.look(&courses),
        courses,
        words: [
            measured_text(Measured::Chest, chest, units),
            text(body),
            text(sleeve),
            text(depth),
            measured_text(Measured::Neck, neck, units),
        ],
        alt,
    })
}

/// The yoke of a jersey from above.
pub(super) fn yoke_view(
    lesson: &Lesson,
    piece: &Piece,
    studied: &Studied<'_>,
    print: &Print,
) -> Option<YokeView> {
    let part = piece
        .parts
        .iter()
        .find(|part| part.name == PartName::Yoke)?;
    let work = AsWorked::of(lesson, studied, print);
    let courses = work.courses_until_rib(part);
    let (body, underarm) = part.stages.iter().find_map(|stage| match stage.kind {
        StageKind::Join { body, underarm, .. } => Some((body, underarm)),
        _ => None,
    })?;
    let neck = courses.last()?.stitches;
    let narrowed = part
        .stages
        .iter()
        .filter(|stage| matches!(stage.kind, StageKind::Change(_)) && stage.after < stage.before);
    let narrowed = narrowed.count();
    let size = piece.size.as_ref().map_or("", |size| size.label.as_str());
    Some(YokeView {
        circle: YokeCircle {
            look: work.look(&courses),
            back: body.saturating_sub(2 * underarm) / 2,
            neck: neck_stitches(neck),
            alt: yoke_alt(
                &lesson.title,
                size,
                (courses.first()?.stitches, neck),
                narrowed,
            ),
            courses,
        },
        size: size.to_owned(),
    })
}

/// A lesson as it is worked.
struct AsWorked<'a> {
    lesson: &'a Lesson,
    studied: &'a Studied<'a>,
    /// The colours of its yarns as they are printed.
    tones: Vec<Rgb>,
}

impl<'a> AsWorked<'a> {
    fn of(lesson: &'a Lesson, studied: &'a Studied<'a>, print: &Print) -> Self {
        Self {
            lesson,
            studied,
            tones: tones(lesson, print),
        }
    }

    fn yarn(&self, index: usize) -> Rgb {
        self.tones.get(index).copied().unwrap_or([128; 3])
    }

    /// The yarn seen most often is the ground.
    fn look(&self, courses: &[DrawnCourse]) -> Look {
        let mut counts: Vec<(Rgb, usize)> = Vec::new();
        for course in courses {
            let each = course.stitches / course.cells.len().max(1);
            for colour in &course.cells {
                match counts.iter_mut().find(|(known, _)| known == colour) {
                    Some((_, n)) => *n += each,
                    None => counts.push((*colour, each)),
                }
            }
        }
        let most = counts.iter().max_by_key(|(_, n)| *n);
        Look {
            ground: most.map_or([128; 3], |(colour, _)| *colour),
            leaves: self.lesson.craft.knows_loops(),
        }
    }

    fn courses(&self, part: &PiecePart) -> Vec<DrawnCourse> {
        self.of_stages(part.stages.iter())
    }

    fn courses_until_rib(&self, part: &PiecePart) -> Vec<DrawnCourse> {
        self.of_stages(
            part.stages
                .iter()
                .filter(|s| !matches!(s.kind, StageKind::Rib(_))),
        )
    }

    fn of_stages<'s>(&self, stages: impl Iterator<Item = &'s Stage>) -> Vec<DrawnCourse> {
        let lesson = self.lesson;
        let (plain, colour) = (lesson.plain_gauge(), lesson.colourwork.gauge);
        let mut yarn = self.yarn(0);
        let mut courses = Vec::new();
        for stage in stages {
            let one = |stitches: usize, rib: Option<usize>, yarn: Rgb| DrawnCourse {
                stitches,
                pitch: plain.width(1.0).to_mm(),
                rise: plain.height(1.0).to_mm(),
                cells: vec![yarn],
                rib,
            };
            match &stage.kind {
                StageKind::Rib(band) | StageKind::Plain(band, _) => {
                    let found = band.and_then(|i| lesson.bands.get(i));
                    let mut rib = matches!(stage.kind, StageKind::Rib(_)).then_some(4);
                    match found {
                        Some(Band::Rib {
                            yarn: own,
                            multiple,
                            ..
                        }) => {
                            yarn = self.yarn(*own);
                            rib = Some(*multiple);
                        }
                        Some(Band::Plain { yarn: own, .. }) => yarn = self.yarn(*own),
                        _ => {}
                    }
                    courses.extend((0..stage.rounds).map(|_| one(stage.after, rib, yarn)));
                }
                StageKind::Change(_) => {
                    courses.extend((0..stage.rounds).map(|_| one(stage.after, None, yarn)))
                }
                StageKind::Rounds(rounds) => {
                    courses.extend(rounds.iter().map(|r| one(r.after, None, yarn)))
                }
                StageKind::Band(band, repeats) => {
                    let rows = self.band_rows(*band, yarn);
                    let last = stage.rounds.max(1);
                    courses.extend((0..stage.rounds).map(|i| {
                        let cells = rows.get(i).cloned().unwrap_or_else(|| vec![yarn]);
                        // A shaped band narrows as its rows do; one whose rows are not shown, evenly.
                        let counted = repeats * cells.len();
                        let lost = stage.before.saturating_sub(stage.after);
                        let even = stage.before - lost * (i + 1) / last;
                        let known = (stage.after..=stage.before).contains(&counted);
                        DrawnCourse {
                            stitches: if known { counted } else { even },
                            pitch: colour.width(1.0).to_mm(),
                            rise: colour.height(1.0).to_mm(),
                            cells,
                            rib: None,
                        }
                    }));
                }
                _ => {}
            }
        }
        courses
    }

    /// The rows of a band as colours; a chart that may not be printed shows as plain work.
    fn band_rows(&self, band: usize, yarn: Rgb) -> Vec<Vec<Rgb>> {
        let lesson = self.lesson;
        // From the chart itself: rows of one colour at either end of the colourwork are not among those measured.
        if let Some(Band::Chart { what, times }) = lesson.bands.get(band) {
            let chart = &what.chart;
            if !chart.rights.may_print() {
                return Vec::new();
            }
            let colour = |ink: &u8| {
                let own = what.yarns.get(usize::from(*ink));
                own.map_or(yarn, |own| self.yarn(*own))
            };
            let cells = |row: usize| {
                let inks = drawn::stitches(chart, row);
                inks.map(|ink| colour(&ink)).collect()
            };
            return drawn::rows_worked(chart, *times).map(cells).collect();
        }
        let hidden = |what: &&ChartUse| !what.chart.rights.may_print();
        if lesson.charts().iter().any(hidden) {
            return Vec::new();
        }
        let work = &self.studied.work;
        let rows = work.rows.iter().filter(|row| row.origin.band == Some(band));
        let colours = |row| {
            work.cells(row)
                .iter()
                .map(|cell| self.yarn(usize::from(*cell)))
        };
        rows.map(|row| colours(row).collect()).collect()
    }
}
