//! The answers to "Which is harder?".

use crate::course::Part;
use crate::course::chart::Chart;
use crate::ground::units::plain_number;
use crate::study::Studied;
use crate::words::{RowNames, Wording, cause_text, literal, part_title};

/// Which of a pair is harder and why, in Markdown: the harder chart, the easier, and their letters.
#[must_use]
pub fn pair_answer(
    [h, e]: [(&Chart, &Studied<'_>); 2],
    [hard, easy]: [&str; 2],
    wording: Wording,
) -> String {
    let tenth = |value: f64| plain_number(value, 1);
    let mut parts: Vec<(f64, Part)> = Part::ALL
        .into_iter()
        .map(|part| {
            let i = part.index();
            (h.1.grade.points[i] - e.1.grade.points[i], part)
        })
        .filter(|(more, _)| *more >= 0.5)
        .collect();
    parts.sort_by(|a, b| b.0.total_cmp(&a.0));
    let cause = |(chart, studied): (&Chart, &Studied<'_>), part: Part| {
        let names = RowNames::of_chart(chart, wording);
        literal(&cause_text(
            part,
            &studied.grade.causes[part.index()],
            &names,
        ))
    };
    let reasons: Vec<String> = parts
        .iter()
        .take(2)
        .map(|(more, part)| {
            format!(
                "{} (+{} points): {hard}: {}. {easy}: {}.",
                part_title(*part, wording),
                tenth(*more),
                cause(h, *part),
                cause(e, *part)
            )
        })
        .collect();
    format!(
        "**{hard} is harder**, {} ({} of 100) against {} ({}). {easy} looks busier: {} against {} of 100. {}",
        literal(&h.0.title),
        tenth(h.1.grade.grade),
        literal(&e.0.title),
        tenth(e.1.grade.grade),
        tenth(e.1.measures.busyness),
        tenth(h.1.measures.busyness),
        reasons.join(" ")
    )
}

/// How well looks foretell grades over so many charts.
#[must_use]
pub fn agreement_text(charts: usize, tau: f64) -> String {
    format!(
        "Over all {charts} charts, how busy they look and how hard they are agree by {} (Kendall's tau: 1 always, 0 no \
         better than chance).",
        plain_number(tau, 2)
    )
}
