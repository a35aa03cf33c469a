//! A learner's log: what was made, how it went, her gauge, the yarn at hand. Entries are added to its text so that
//! nothing else in it moves, comments least of all.

use crate::ground::fault::Span;
use crate::ground::quoted::quoted;

/// How a thing went.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Went {
    /// Without trouble.
    Easy,
    /// Just right.
    Right,
    /// With trouble: only part of it counts as met.
    Hard,
}

impl Went {
    /// The words of the file.
    pub const NAMES: &'static [&'static str] = &["easy", "right", "hard"];

    /// By the word of the file.
    #[must_use]
    pub fn from_name(name: &str) -> Option<Self> {
        [Self::Easy, Self::Right, Self::Hard]
            .into_iter()
            .find(|went| went.name() == name)
    }

    /// The word of the file.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Easy => "easy",
            Self::Right => "right",
            Self::Hard => "hard",
        }
    }
}

/// A thing made.
#[derive(Clone, Debug)]
pub struct LogEntry {
    /// The id of a lesson or chart.
    pub made: String,
    /// The course it comes from, where several have the id.
    pub course: Option<String>,
    /// How it went.
    pub went: Went,
    /// The day, as written.
    pub on: Option<String>,
    /// Anything else.
    pub note: Option<String>,
    /// Where the id stands, for faults.
    pub place: Span,
}

/// Yarn at hand.
#[derive(Clone, Debug, PartialEq)]
pub struct Stock {
    /// Its name.
    pub name: String,
    /// Weight category.
    pub weight: Option<u32>,
    /// How much there is.
    pub grams: Option<f64>,
}

/// A learner's log.
#[derive(Clone, Debug, Default)]
pub struct Log {
    /// Whose it is.
    pub learner: Option<String>,
    /// Things made, the first first.
    pub done: Vec<LogEntry>,
    /// Yarn at hand.
    pub stock: Vec<Stock>,
}

/// A new entry.
#[derive(Clone, Debug, Default)]
pub struct NewEntry<'a> {
    /// The id of a lesson or chart.
    pub made: &'a str,
    /// The course.
    pub course: Option<&'a str>,
    /// `easy`, `right` or `hard`.
    pub went: &'a str,
    /// The day.
    pub on: Option<&'a str>,
    /// Stitches and rows to 10 cm.
    pub gauge: Option<(f64, f64)>,
    /// A note.
    pub note: Option<&'a str>,
}

/// Whether a text is a day of the calendar, such as `2026-10-02`.
#[must_use]
pub fn is_day(text: &str) -> bool {
    let mut parts = text.split('-');
    let mut number = |digits: usize| -> Option<u32> {
        let part = parts.next()?;
        let right = part.len() == digits && part.bytes().all(|b| b.is_ascii_digit());
        right.then(|| part.parse().ok())?
    };
    let (Some(year), Some(month), Some(day)) = (number(4), number(2), number(2)) else {
        return false;
    };
    let leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    let days = match month {
        4 | 6 | 9 | 11 => 30,
        2 => 28 + u32::from(leap),
        _ => 31,
    };
    (1..=12).contains(&month) && (1..=days).contains(&day) && parts.next().is_none()
}

/// The first lines of a new log.
const NEW_LOG: &str = "# What was made, and how it went: easy, right or hard.\n";

/// A learner's place in a class: what the register holds of her.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Registered {
    /// Her name.
    pub name: String,
    /// Her size.
    pub size: String,
    /// Her colours, in her own words.
    pub colours: String,
    /// Ids of lessons that she has finished.
    pub done: Vec<String>,
}

/// Where the list of things made lies in a log's text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ListPlace {
    /// There is no `done` yet.
    Missing,
    /// A list of lines: a new entry goes to this byte, indented so far.
    Lines {
        /// End of the last entry's last line.
        end: usize,
        /// Blanks before the `-`.
        indent: usize,
    },
    /// An empty list, `[]` or nothing: these bytes give way to it.
    Empty {
        /// First byte.
        start: usize,
        /// One past the last.
        end: usize,
    },
}

/// The log with the entry added at `place`.
#[must_use]
pub fn with_entry(text: &str, place: ListPlace, entry: &NewEntry<'_>) -> String {
    match place {
        ListPlace::Missing => {
            let mut out = if text.trim().is_empty() {
                format!("{text}{NEW_LOG}")
            } else {
                text.to_owned()
            };
            if !out.ends_with('\n') {
                out.push('\n');
            }
            out + "done:\n" + &lines(entry, 2)
        }
        ListPlace::Empty { start, end } => {
            let before = text.get(..start).unwrap_or_default().trim_end_matches(' ');
            let after = text.get(end..).unwrap_or_default();
            // What stands behind the empty list on its line, a comment perhaps, stays there.
            let (rest, next) = after.split_once('\n').unwrap_or((after, ""));
            format!("{before}{rest}\n{}{next}", lines(entry, 2))
        }
        ListPlace::Lines { end, indent } => {
            let (before, after) = text.split_at_checked(end).unwrap_or((text, ""));
            let line_end = after.find('\n').map_or(after.len(), |i| i + 1);
            let (rest, after) = after.split_at_checked(line_end).unwrap_or((after, ""));
            let newline = if rest.ends_with('\n') { "" } else { "\n" };
            format!("{before}{rest}{newline}{}{after}", lines(entry, indent))
        }
    }
}

fn lines(entry: &NewEntry<'_>, indent: usize) -> String {
    let mut out = vec![format!("- made: {}", entry.made)];
    out.extend(entry.course.map(|c| format!("  course: {c}")));
    out.push(format!("  went: {}", entry.went));
    out.extend(entry.on.map(|on| format!("  on: {on}")));
    out.extend(
        entry
            .gauge
            .map(|(s, r)| format!("  gauge: {{ stitches: {s}, rows: {r} }}")),
    );
    out.extend(entry.note.map(|note| format!("  note: {}", quoted(note))));
    let pad = " ".repeat(indent);
    out.iter().map(|line| format!("{pad}{line}\n")).collect()
}
