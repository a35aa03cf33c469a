//! Rows of a chart in words, enough to work from without sight of the chart.

use crate::course::Lesson;
use crate::course::Reads;
use crate::course::chart::{Chart, Mark, Worked};
use crate::ground::units::Number;
use crate::rows::drawn;
use crate::rows::walk::{Row, Work};
use crate::words::count;
use crate::words::labels::{ALL_OF, PASSES, REPEAT_FROM};
use crate::words::terms::Wording;
use crate::words::{CraftWords, Leans};

/// What a line of work is called, and what its colours are called.
#[derive(Clone, Debug)]
pub struct RowNames {
    /// `round` or `row`.
    pub line: &'static str,
    /// `rounds` or `rows`.
    pub lines: &'static str,
    /// Name of each colour, by the index of the measured cells.
    pub colours: Vec<String>,
    /// The words of the course.
    pub wording: Wording,
    /// Whether it is knitted.
    pub is_knitted: bool,
    /// What a carried strand is said to do.
    pub carried: (&'static str, &'static str),
    /// What is said of a row on the way back.
    way_back: Option<&'static str>,
    /// For each row of the work the chart and the row in it, where readers know a row by its chart: a title if there are
    /// several charts, and the number.
    places: Vec<Option<(Option<String>, Number)>>,
}

impl RowNames {
    /// Of a lesson: its yarns' names.
    #[must_use]
    pub fn of_lesson(lesson: &Lesson, wording: Wording) -> Self {
        let names = lesson.yarns.iter().map(|yarn| yarn.name.clone()).collect();
        Self {
            is_knitted: lesson.craft.purls(),
            carried: CraftWords::of(lesson, wording).carried(),
            way_back: lesson
                .turns()
                .then(|| CraftWords::of(lesson, wording).way_back()),
            ..Self::new(lesson.worked, names, wording)
        }
    }

    /// Of a bare chart that is shown in yarns of these names.
    #[must_use]
    pub fn of_chart(chart: &Chart, yarns: Vec<String>, wording: Wording) -> Self {
        Self::new(chart.worked, yarns, wording)
    }

    fn new(worked: Worked, colours: Vec<String>, wording: Wording) -> Self {
        let (line, lines) = match worked {
            Worked::Round => ("round", "rounds"),
            Worked::Flat => ("row", "rows"),
        };
        Self {
            line,
            lines,
            colours,
            wording,
            is_knitted: true,
            carried: ("", ""),
            way_back: (worked == Worked::Flat).then_some("(wrong side, purl) "),
            places: Vec::new(),
        }
    }

    /// With the places of a lesson's rows in its charts, for readers who have only those before them.
    #[must_use]
    pub fn with_places(mut self, lesson: &Lesson, work: &Work<'_>) -> Self {
        let several = work.charts.len() > 1;
        let place = |row: &Row| {
            let drawn = row.origin.drawn?;
            let id = work.charts.get(drawn.chart);
            let mut used = lesson.charts().into_iter().map(|what| &what.chart);
            let chart = id.and_then(|id| used.find(|chart| chart.id == *id));
            let title = chart.filter(|_| several).map(|chart| chart.title.clone());
            Some((title, drawn.row))
        };
        self.places = work.rows.iter().map(place).collect();
        self
    }

    /// ` in round 6`, or where places are known ` in round 6 of “Dunlin”`; nothing for a row that no chart holds.
    #[must_use]
    pub fn in_row(&self, row: Number) -> String {
        let line = self.line;
        match self.places.get(row.index()) {
            None => format!(" in {line} {row}"),
            Some(None) => String::new(),
            Some(Some((None, number))) => format!(" in {line} {number}"),
            Some(Some((Some(title), number))) => format!(" in {line} {number} of “{title}”"),
        }
    }

    /// `round 6`, or where several charts are told apart `round 6 of “Dunlin”`, by the place of the row in the work.
    #[must_use]
    pub fn row_at(&self, row: usize) -> String {
        self.in_row(Number::of_index(row))
            .trim_start_matches(" in ")
            .to_owned()
    }

    /// The name of a colour.
    #[must_use]
    pub fn colour(&self, index: u8) -> &str {
        self.colours
            .get(usize::from(index))
            .map_or("?", String::as_str)
    }

    /// What is said before the words of a chart's row (from 0) of flat work on the way back.
    #[must_use]
    pub fn way_back(&self, row: usize) -> Option<&'static str> {
        self.way_back.filter(|_| row % 2 == 1)
    }

    /// `Round` or `Row`.
    #[must_use]
    pub fn line_title(&self) -> &'static str {
        if self.line == "round" { "Round" } else { "Row" }
    }
}

/// What a mark of a chart is called in its legend; nothing for a plain stitch.
#[must_use]
pub fn mark_name(mark: Mark, leans: &Leans) -> Option<String> {
    Some(match mark {
        Mark::Plain => return None,
        Mark::RightDecrease => leans.right.clone(),
        Mark::LeftDecrease => leans.left.clone(),
        Mark::DoubleDecrease => THREE_TOGETHER.to_owned(),
        Mark::MakeOne => MAKE_ONE.to_owned(),
        Mark::Purl => "purl".to_owned(),
        Mark::NoStitch => "no stitch: pass over it".to_owned(),
    })
}

const THREE_TOGETHER: &str = "three together";
const MAKE_ONE: &str = "make one";

/// One row of a chart in words: `*1 Peat, 3 Fleece; repeat from *`, before an edge `… to the last 2 stitches, 1 Sand, 1 Peat`. `yarn` names the yarn of each ink.
///
/// `whole`: the chart's whole repeat, even where the row repeats within it. Stitches outside the repeat are named before and after it; a flat even row is read from the left. Marks are put
/// into words; where no stitch stands nothing is said.
#[must_use]
pub fn row_words(
    chart: &Chart,
    (row, reads): (usize, Reads),
    (yarn, leans): (&dyn Fn(u8) -> String, &Leans),
    whole: bool,
) -> String {
    let backwards = reads.is_back(row);
    let repeat = chart.repeat_stitches.clone();
    let say = |from: usize, to: usize| {
        let mut columns: Vec<usize> = (from..to).collect();
        if backwards {
            columns.reverse();
        }
        runs(chart, row, &columns, (yarn, leans))
    };
    // A row that repeats inside the chart's repeat is said once.
    let unit = if whole {
        repeat.len()
    } else {
        unit_of_row(chart, row, repeat.clone())
    };
    let middle_end = if backwards {
        repeat.end
    } else {
        repeat.start + unit
    };
    let middle_start = if backwards {
        repeat.end - unit
    } else {
        repeat.start
    };
    let (right, middle, left) = (
        say(0, repeat.start),
        say(middle_start, middle_end),
        say(repeat.end, chart.width),
    );
    let (before, after) = if backwards {
        (left, right)
    } else {
        (right, left)
    };
    if let Some(colour) = drawn::one_colour(chart, row)
        && !(0..chart.width)
            .any(|column| !matches!(chart.mark(row, column), Mark::Plain | Mark::NoStitch))
    {
        return format!("{ALL_OF}{}", yarn(colour));
    }
    if !chart.has_edges() && !chart.declares_stitches && !reads.is_round() {
        let all = [say(0, chart.width)];
        return all
            .iter()
            .filter(|part| !part.is_empty())
            .map(|part| part.join(", "))
            .collect::<Vec<_>>()
            .join(", ");
    }
    let mut text = String::new();
    if !before.is_empty() {
        text.push_str(&before.join(", "));
        text.push_str(", ");
    }
    text.push('*');
    text.push_str(&middle.join(", "));
    text.push_str("; ");
    text.push_str(REPEAT_FROM);
    if !after.is_empty() {
        let edge = if backwards {
            0..repeat.start
        } else {
            repeat.end..chart.width
        };
        let left = edge.filter(|x| drawn::stands(chart, row, *x)).count();
        let left = count(left, "stitch", "stitches").replacen("1 stitch", "stitch", 1);
        text.push_str(&format!(" to the last {left}, {}", after.join(", ")));
    }
    let shaped = (0..chart.width).any(|column| chart.mark(row, column).is_shaping());
    if shaped {
        let left = repeat.filter(|x| drawn::stands(chart, row, *x)).count();
        let left = count(left, "stitch", "stitches");
        text.push_str(&format!(". That leaves {left} in each repeat"));
    }
    text
}

/// The smallest stretch that, repeated, makes up these columns of a row.
fn unit_of_row(chart: &Chart, row: usize, columns: std::ops::Range<usize>) -> usize {
    let at = |column: usize| (chart.row(row).get(column).copied(), chart.mark(row, column));
    let length = columns.len();
    let repeats = |unit: &usize| {
        length.is_multiple_of(*unit)
            && (columns.start..columns.end - unit).all(|column| at(column) == at(column + unit))
    };
    (1..=length).find(repeats).unwrap_or(length)
}

/// Runs of one colour and mark, in the order worked.
fn runs(
    chart: &Chart,
    row: usize,
    columns: &[usize],
    (yarn, leans): (&dyn Fn(u8) -> String, &Leans),
) -> Vec<String> {
    let mut runs: Vec<(u8, Mark, usize)> = Vec::new();
    for &column in columns {
        let mark = chart.mark(row, column);
        if !drawn::stands(chart, row, column) {
            continue;
        }
        let cell = chart.row(row).get(column).copied().unwrap_or(0);
        match runs.last_mut() {
            Some((c, m, n)) if *c == cell && *m == mark => *n += 1,
            _ => runs.push((cell, mark, 1)),
        }
    }
    runs.into_iter()
        .map(|(cell, mark, n)| {
            let name = yarn(cell);
            let each = |one: &str| {
                if n == 1 {
                    format!("{one} in {name}")
                } else {
                    format!("{n} × ({one}) in {name}")
                }
            };
            match mark {
                Mark::RightDecrease => each(&leans.right),
                Mark::LeftDecrease => each(&leans.left),
                Mark::DoubleDecrease => each(THREE_TOGETHER),
                Mark::MakeOne => each(MAKE_ONE),
                Mark::Purl => format!("purl {n} {name}"),
                Mark::Plain | Mark::NoStitch => format!("{n} {name}"),
            }
        })
        .collect()
}

/// A Tunisian row: its forward pass as told, and its return pass.
#[must_use]
pub fn passes_words(words: &str, wording: Wording) -> String {
    let [forward, back] = PASSES;
    let colour = wording.colour();
    if words.starts_with(ALL_OF) {
        format!("{forward} and {back} {words}")
    } else {
        format!("{forward} {words}. {back} back, each loop in its own {colour}")
    }
}
