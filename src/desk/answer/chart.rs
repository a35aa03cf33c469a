//! What the draft of a chart says and asks, even while it is not right yet.

use serde_json::{Value, json};

use crate::app::{BareOptions, shown_colour, study_chart};
use crate::course::chart::{Chart, Line, RawChart};
use crate::course::{Course, Lesson};
use crate::desk::answer::measured::Measured;
use crate::desk::present::{Present, uses};
use crate::ground::colour::{Rgb, hex};
use crate::ground::fault::{Fault, Span};
use crate::ground::units::Gauge;
use crate::piece::contrast::clashes;
use crate::read::{ChartText, read_chart_text};
use crate::study::{self, Studied};
use crate::words::{RowNames, Wording, clash_text};

/// A chart on the desk: its text, and the lesson in whose yarns it is shown.
pub(super) struct ChartOnDesk<'a> {
    pub text: ChartText,
    pub present: &'a Present,
    /// The lesson in whose yarns it is shown.
    pub lesson: Option<Lesson>,
    /// Whether it stands in the lesson's bands as it is now; not while the lesson lacks a yarn for one of its colours.
    pub in_lesson: bool,
}

impl<'a> ChartOnDesk<'a> {
    /// The draft of a chart; `None` where its text is not YAML or has no rows or colours.
    pub(super) fn read(
        id: &str,
        text: &str,
        wanted: Option<&str>,
        present: &'a Present,
    ) -> Option<Self> {
        let text = read_chart_text(id, text)?;
        let named = wanted.and_then(|lesson| present.lesson(lesson));
        let lesson = named
            .filter(|lesson| uses(lesson, id))
            .or_else(|| present.lesson_of_chart(id));
        let with = lesson.zip(text.chart.as_ref());
        let with = with.and_then(|(lesson, chart)| with_chart(lesson, chart));
        Some(Self {
            in_lesson: with.is_some(),
            lesson: with.or_else(|| lesson.cloned()),
            text,
            present,
        })
    }

    fn course(&self) -> &Course {
        self.present.course()
    }

    /// Stitches and rows to 10 cm at which the chart's rows are measured, and the limit.
    fn options(&self) -> BareOptions {
        match &self.lesson {
            None => BareOptions::default(),
            Some(lesson) => {
                let limit = lesson.float_limit();
                BareOptions {
                    gauge: Some(lesson.colourwork.gauge.stitches),
                    limit_stitches: Some(limit.stitches),
                    limit_mm: Some(limit.length.to_mm()),
                }
            }
        }
    }

    /// The chart by itself, studied.
    pub(super) fn bare<'c>(&self, chart: &'c Chart) -> Studied<'c> {
        study_chart(chart, self.options(), self.course())
    }

    /// The lesson that uses it, studied.
    pub(super) fn graded(&self) -> Option<Studied<'_>> {
        let lesson = self.lesson.as_ref().filter(|_| self.in_lesson)?;
        Some(study::lesson(lesson, self.course()))
    }

    /// The yarn of a role: its name and colour.
    pub(super) fn yarn(&self, place: usize, role: &str) -> (String, Rgb) {
        let lesson = self.lesson.as_ref();
        let used = lesson.and_then(|lesson| {
            let charts = lesson.charts();
            let what = charts
                .iter()
                .find(|what| what.chart.id == self.text.raw.id)?;
            let ink = what.chart.inks.iter().position(|ink| ink.role == role)?;
            lesson.yarns.get(*what.yarns.get(ink)?)
        });
        let named = || lesson?.yarns.iter().find(|yarn| yarn.role == role);
        match used.or_else(named) {
            Some(yarn) => (yarn.name.clone(), yarn.rgb),
            None => (role.to_owned(), shown_colour(place)),
        }
    }

    /// The colours: letter, role, name, how it is shown.
    pub(super) fn colours(&self) -> Value {
        let each = self.text.raw.colours.iter().enumerate();
        let each = each.map(|(place, (letter, role))| {
            let (name, rgb) = self.yarn(place, role);
            json!({"letter": letter.value, "role": role, "name": name, "hex": hex(rgb)})
        });
        each.collect()
    }

    /// Height of a stitch ÷ its width.
    pub(super) fn aspect(&self) -> f64 {
        let gauge = self
            .lesson
            .as_ref()
            .map_or(Gauge::BARE_CHART, |lesson| lesson.colourwork.gauge);
        gauge.stitches / gauge.rows
    }

    /// The answer.
    pub(super) fn answer(&self) -> Value {
        let raw = &self.text.raw;
        let chart = self.text.chart.as_ref();
        let bare = chart.map(|chart| self.bare(chart));
        let limit = bare.as_ref().map(|bare| bare.measures.floats.limit);
        let range = |range: Option<(usize, usize)>| range.map(|(from, to)| format!("{from}-{to}"));
        let whole = |range: Option<(usize, usize)>, all: usize| match range {
            Some((from, to)) => [from, to],
            None => [1, all],
        };
        let (across, up) = (
            raw.repeat_stitches.as_ref().map(|range| range.value),
            raw.repeat_rows.as_ref().map(|range| range.value),
        );
        let width = raw.rows.iter().map(|line| line.text.chars().count()).max();
        let lesson = self.lesson.as_ref();
        let graded = self.graded();
        let graded = lesson.zip(graded.as_ref());
        let measured = chart.zip(bare.as_ref());
        json!({
            "title": raw.title,
            "worked": raw.worked.name(),
            "rights": raw.rights.as_ref().map_or("reference-only", |rights| rights.value.as_str()),
            "from": raw.from,
            "scope": raw.scope,
            "source": raw.source.clone().unwrap_or_default(),
            "rows": lines(&raw.rows),
            "shaping": raw.shaping.as_deref().map(lines),
            "colours": self.colours(),
            "repeat": {"stitches": range(across), "rows": range(up)},
            "repeats": {"stitches": whole(across, width.unwrap_or(0)), "rows": whole(up, raw.rows.len())},
            "reflect": raw.reflect.as_ref().map(|reflect| reflect.value.name()),
            "lesson": lesson.map(|lesson| json!({"id": lesson.id, "title": lesson.title})),
            "aspect": self.aspect(),
            "limit": limit.unwrap_or(0),
            "live": live(raw),
            "measured": measured.map(|(chart, bare)| self.measured(chart, bare, graded)),
            "marks": self.text.faults.iter().filter_map(|fault| mark(fault, raw)).collect::<Vec<_>>(),
            "clashes": graded.map_or(json!([]), |graded| self.clashes(graded)),
        })
    }

    fn measured(
        &self,
        chart: &Chart,
        bare: &Studied<'_>,
        graded: Option<(&Lesson, &Studied<'_>)>,
    ) -> Value {
        let wording = Wording::of_course(self.course());
        let Some((lesson, graded)) = graded else {
            let yarns = chart.inks.iter().enumerate();
            let yarns = yarns.map(|(place, ink)| self.yarn(place, &ink.role).0);
            let names = RowNames::of_chart(chart, yarns.collect(), wording);
            let alone = Measured {
                graded: bare,
                names: &names,
                rows: (&chart.id, bare),
                stands: None,
            };
            return alone.answer();
        };
        let names = RowNames::of_lesson(lesson, wording).with_places(lesson, &graded.work);
        let stands = self.present.standing(&lesson.id, graded);
        let in_lesson = Measured {
            graded,
            names: &names,
            rows: (&chart.id, bare),
            stands: stands.as_ref(),
        };
        in_lesson.answer()
    }

    fn clashes(&self, (lesson, graded): (&Lesson, &Studied<'_>)) -> Value {
        let wording = Wording::of_course(self.course());
        let letter = |yarn: usize| {
            let role = &lesson.yarns.get(yarn)?.role;
            let charts = lesson.charts();
            let what = charts
                .iter()
                .find(|what| what.chart.id == self.text.raw.id)?;
            let ink = what.yarns.iter().position(|used| *used == yarn);
            let role = ink
                .and_then(|ink| what.chart.inks.get(ink))
                .map_or(role, |ink| &ink.role);
            let mut colours = self.text.raw.colours.iter();
            let (letter, _) = colours.find(|(_, named)| named == role)?;
            Some(letter.value.clone())
        };
        let each = clashes(lesson, &graded.work)
            .into_iter()
            .filter_map(|clash| {
                let (a, b) = clash.yarns;
                Some(json!({
                    "letters": [letter(a)?, letter(b)?],
                    "text": clash_text(&clash, lesson, wording),
                }))
            });
        each.collect()
    }
}

/// The lesson with a chart of this id replaced; `None` where its colours are others.
fn with_chart(lesson: &Lesson, chart: &Chart) -> Option<Lesson> {
    let mut fits = true;
    let with = lesson.with_charts(&mut |old| {
        let same = old.id == chart.id;
        fits &= !same || old.inks == chart.inks;
        same.then(|| chart.clone())
    });
    fits.then_some(with)
}

fn lines(lines: &[Line]) -> Vec<&str> {
    lines.iter().map(|line| line.text.as_str()).collect()
}

/// Stitches that stand in each row, row 1 first; none while rows are ragged.
fn live(raw: &RawChart) -> Vec<usize> {
    let width = |line: &Line| line.text.chars().count();
    let first = raw.rows.first().map_or(0, width);
    if raw.rows.iter().any(|line| width(line) != first) {
        return Vec::new();
    }
    let rows = raw.rows.len();
    let each = (0..rows).rev().map(|row| {
        let marks = raw.shaping.as_ref().and_then(|lines| lines.get(row));
        let none = marks.map_or(0, |line| line.text.chars().filter(|c| *c == '#').count());
        first.saturating_sub(none)
    });
    each.collect()
}

/// The row and stitch that a fault lies on.
fn mark(fault: &Fault, raw: &RawChart) -> Option<Value> {
    let span = fault.labels.first()?.span;
    let shaping = raw.shaping.as_deref().unwrap_or_default();
    let (row, stitch) = place(span, &raw.rows).or_else(|| place(span, shaping))?;
    Some(json!({
        "row": row,
        "stitch": stitch,
        "code": fault.code.name(),
        "message": fault.title,
    }))
}

/// The row and, of a span within a line, the stitch where a span lies.
fn place(span: Span, lines: &[Line]) -> Option<(usize, Option<usize>)> {
    let at = lines.iter().position(|line| {
        line.exact && line.span.start <= span.start && span.end <= line.span.end
    })?;
    let line = lines.get(at)?;
    let before = line
        .text
        .get(..span.start - line.span.start)?
        .chars()
        .count();
    let stitch = line.text.chars().count().checked_sub(before)?;
    let whole = span.start == line.span.start && span.end == line.span.end;
    Some((lines.len() - at, (!whole && stitch > 0).then_some(stitch)))
}
