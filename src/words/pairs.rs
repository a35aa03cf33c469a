//! Two charts against each other: which is harder, and why.

use crate::course::Part;
use crate::ground::units::plain_number;
use crate::rows::grade::Grade;
use crate::rows::measure::Measures;
use crate::study::Studied;
use crate::words::{RowNames, capital, cause_text, count, part_title};

/// Grades that differ by less are as good as the same.
pub const CLEARLY: f64 = 3.0;

/// One of two charts.
#[derive(Clone, Debug)]
pub struct Contender<'a> {
    /// `A` or `B`.
    pub letter: &'a str,
    /// Its title.
    pub title: &'a str,
    /// What is known of it.
    pub studied: &'a Studied<'a>,
    /// What its rows and colours are called.
    pub names: RowNames,
}

impl Contender<'_> {
    fn grade(&self) -> &Grade {
        &self.studied.grade
    }
}

/// Which of two is harder.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Verdict {
    /// The harder one, from 0; `None` where neither clearly is.
    pub harder: Option<usize>,
    /// In three words.
    pub verdict: String,
    /// The numbers, and the reasons for them.
    pub why: String,
}

fn tenth(value: f64) -> String {
    plain_number(value, 1)
}

/// Which is harder and why, in plain text; neither where they are as good as the same.
#[must_use]
pub fn verdict(a: &Contender<'_>, b: &Contender<'_>) -> Verdict {
    let (h, e) = if a.grade().grade >= b.grade().grade {
        (a, b)
    } else {
        (b, a)
    };
    let near = h.grade().grade - e.grade().grade < CLEARLY;
    let against = format!(
        "{} ({} of 100) against {} ({})",
        h.title,
        tenth(h.grade().grade),
        e.title,
        tenth(e.grade().grade)
    );
    let (busy, calm) = (h.studied.measures.busyness, e.studied.measures.busyness);
    let looks = if near {
        let (first, second) = (a.studied.measures.busyness, b.studied.measures.busyness);
        format!(
            "{} looks {} of 100 busy, {} {}",
            a.letter,
            tenth(first),
            b.letter,
            tenth(second)
        )
    } else if busy > calm {
        format!(
            "It looks busier, too: {} against {} of 100",
            tenth(busy),
            tenth(calm)
        )
    } else {
        format!(
            "{} looks busier: {} against {} of 100",
            e.letter,
            tenth(calm),
            tenth(busy)
        )
    };
    Verdict {
        harder: (!near).then(|| usize::from(std::ptr::eq(h, b))),
        verdict: if near {
            "Neither is clearly harder".to_owned()
        } else {
            format!("{} is harder", h.letter)
        },
        why: format!("{against}. {looks}. {}", reasons(h, e).join(" "))
            .trim_end()
            .to_owned(),
    }
}

/// The two parts that make most of the difference, with what causes them on both sides.
fn reasons(h: &Contender<'_>, e: &Contender<'_>) -> Vec<String> {
    let mut parts: Vec<(f64, Part)> = Part::ALL
        .into_iter()
        .map(|part| {
            let i = part.index();
            (h.grade().points[i] - e.grade().points[i], part)
        })
        .filter(|(more, _)| *more >= 0.5)
        .collect();
    parts.sort_by(|a, b| b.0.total_cmp(&a.0));
    let cause = |one: &Contender<'_>, part: Part| {
        let text = cause_text(part, &one.grade().causes[part.index()], &one.names);
        format!("{}: {text}.", one.letter)
    };
    let told = parts.iter().take(2).map(|(more, part)| {
        format!(
            "{} (+{} points): {} {}",
            part_title(*part, h.names.wording),
            tenth(*more),
            cause(h, *part),
            cause(e, *part)
        )
    });
    told.collect()
}

/// The measures that a teacher would lay side by side: names, and the numbers of a chart.
#[must_use]
pub fn side_measures(studied: &Studied<'_>, names: &RowNames) -> Vec<(String, String)> {
    let Measures {
        floats,
        colours,
        reading,
        relief,
        busyness,
        ..
    } = &studied.measures;
    let stitches = count(floats.longest, "stitch", "stitches");
    let line = names.line;
    let rows = [
        (
            "Longest float".to_owned(),
            format!("{stitches} ({} mm)", plain_number(floats.longest_mm, 0)),
        ),
        (
            format!(
                "{} over {}",
                capital(names.lines),
                count(floats.limit, "stitch", "stitches")
            ),
            floats.rows_over.to_string(),
        ),
        ("Catches in a repeat".to_owned(), floats.catches.to_string()),
        (
            format!("{} in a {line}, at most", capital(names.wording.colours())),
            colours.most.to_string(),
        ),
        (
            format!("Looks at the chart in a {line}, at most"),
            reading.looks_most.to_string(),
        ),
        (
            format!("{} on end without a plain one", capital(names.lines)),
            relief.stretch.to_string(),
        ),
        ("How busy it looks, of 100".to_owned(), tenth(*busyness)),
        (
            "How hard it is, of 100".to_owned(),
            tenth(studied.grade.grade),
        ),
    ];
    rows.to_vec()
}

/// How far looks foretell how hard charts are: pairs that differ in both, and those in which the busier is the harder.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Looks {
    /// Pairs.
    pub pairs: usize,
    /// Of which the busier chart is the harder.
    pub as_they_are: usize,
}

/// How far looks can be trusted.
#[must_use]
pub fn looks_text(looks: Looks) -> String {
    format!(
        "Of all {} that can be made of these charts, the busier one is the harder in {}: who goes by looks alone is wrong in {}.",
        count(looks.pairs, "pair", "pairs"),
        looks.as_they_are,
        looks.pairs - looks.as_they_are
    )
}
