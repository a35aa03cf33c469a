//! All that is known of a lesson or chart, worked out once and passed on: worked rows, measures, grade; and on first
//! asking the catch plan, the piece in every size, its yarn, time, and yarns that clash.

use std::sync::OnceLock;

use crate::course::chart::Chart;
use crate::course::{Course, Lesson, Levels, Weights, middle};
use crate::piece::contrast::{Clash, clashes};
use crate::piece::time::{self, Stitches};
use crate::piece::yarn::{Amount, Basis, amounts};
use crate::piece::{self, Piece, Pieces, Without};
use crate::rows::catches::{self, Catch};
use crate::rows::grade::{self, Demand, Grade, Setting};
use crate::rows::measure::{self, Measures};
use crate::rows::thread::Field;
use crate::rows::walk::{self, BareSettings, Work};

/// A lesson or a bare chart with all that is known about it.
#[derive(Clone, Debug)]
pub struct Studied<'a> {
    /// Its worked rows.
    pub work: Work<'a>,
    /// Its measures.
    pub measures: Measures,
    /// Its grade.
    pub grade: Grade,
    /// What it asks of a learner.
    pub demand: Demand,
    lesson: Option<&'a Lesson>,
    plan: OnceLock<Vec<Vec<Catch>>>,
    made: OnceLock<Made>,
}

/// A lesson in every size.
#[derive(Clone, Debug, Default)]
pub struct Made {
    /// The piece in every size that has counts.
    pub pieces: Vec<Piece>,
    /// Sizes without counts.
    pub without: Vec<Without>,
    /// For each piece its basis and the yarn of each colour; none for a craft whose stitches no formula knows.
    pub amounts: Vec<(Basis, Vec<Amount>)>,
    /// Stitches of the middle size; nothing where no counts do.
    pub stitches: Stitches,
    /// Those of them that are worked before the colourwork begins; `None` where no counts do.
    pub before_colourwork: Option<Stitches>,
    /// Yarns that meet in a row and do not read apart.
    pub clashes: Vec<Clash>,
}

impl Made {
    fn of(lesson: &Lesson, work: &Work<'_>) -> Self {
        let Pieces {
            made: pieces,
            without,
        } = piece::pieces(lesson);
        let middle = middle(&pieces);
        Self {
            amounts: pieces
                .iter()
                .filter_map(|piece| amounts(lesson, piece))
                .collect(),
            stitches: middle.map_or_else(Stitches::default, |p| match lesson.craft.has_rows() {
                true => time::of_piece(lesson, p),
                false => Stitches {
                    craft: lesson.craft,
                    plain: Field::of(work).crosses() as f64,
                    stranded: 0.0,
                },
            }),
            before_colourwork: middle.map(|p| time::before_colourwork(lesson, p)),
            clashes: clashes(lesson, work),
            pieces,
            without,
        }
    }

    /// The yarn of the middle size, where it is known.
    #[must_use]
    pub fn middle_amounts(&self) -> Option<&(Basis, Vec<Amount>)> {
        middle(&self.amounts)
    }
}

impl<'a> Studied<'a> {
    fn new(
        work: Work<'a>,
        (lesson, setting): (Option<&'a Lesson>, Setting<'_>),
        (weights, levels): (Weights, Levels),
    ) -> Self {
        let measures = measure::measure(&work);
        let grade = grade::grade(&work, &measures, setting, weights, levels);
        let demand = Demand {
            parts: grade.parts,
            techniques: grade.techniques.clone(),
        };
        Self {
            work,
            measures,
            grade,
            demand,
            lesson,
            plan: OnceLock::new(),
            made: OnceLock::new(),
        }
    }

    /// Its catch plan, row by row.
    #[must_use]
    pub fn plan(&self) -> &[Vec<Catch>] {
        self.plan
            .get_or_init(|| catches::plan(&self.work, &self.measures))
    }

    /// The lesson in every size; of a bare chart nothing is made.
    #[must_use]
    pub fn made(&self) -> &Made {
        self.made.get_or_init(|| {
            let made = self.lesson.map(|lesson| Made::of(lesson, &self.work));
            made.unwrap_or_default()
        })
    }
}

/// Studies a lesson as worked.
#[must_use]
pub fn lesson<'a>(lesson: &'a Lesson, course: &Course) -> Studied<'a> {
    Studied::new(
        walk::lesson(lesson),
        (Some(lesson), Setting::of(lesson, &course.assumes)),
        (course.weights, course.levels),
    )
}

/// Studies a chart by itself.
#[must_use]
pub fn chart<'a>(chart: &'a Chart, settings: BareSettings, course: &Course) -> Studied<'a> {
    Studied::new(
        walk::bare_chart(chart, settings),
        (None, Setting::BARE),
        (course.weights, course.levels),
    )
}
