//! "Which is harder?": pairs of charts of which the busier one is the easier.

use crate::course::chart::Chart;
use crate::ground::statistics::kendall_tau_b;
use crate::handout::Print;
use crate::picture::{Drawing, InkLook, glance};
use crate::study::Studied;
use crate::words::pictures::glance_alt;
use crate::words::{Wording, agreement_text, pair_answer};

/// Least difference of grades that counts as clear: half of the largest step that a course allows.
const CLEARLY_HARDER: f64 = 7.5;
/// Least difference in how busy two charts look.
const CLEARLY_BUSIER: f64 = 4.0;
/// Most questions that show the same chart.
const MOST_SHOWN: usize = 2;
/// Most questions.
const MOST: usize = 6;

/// A chart that may be asked about, with the yarns that it is shown in.
#[derive(Clone, Debug)]
pub struct QuizChart<'a> {
    /// The chart.
    pub chart: &'a Chart,
    /// Measured by itself.
    pub studied: &'a Studied<'a>,
    /// Looks of its inks.
    pub looks: Vec<InkLook>,
}

/// A pair: the busier chart looks harder, and is not.
#[derive(Clone, Debug)]
pub struct Question {
    /// Place on the sheet, from 1.
    pub number: usize,
    /// The charts as A and B.
    pub drawings: [Drawing; 2],
    /// Their titles.
    pub titles: [String; 2],
    /// The answer with its measured reasons, in Markdown.
    pub answer: String,
}

/// A quiz.
#[derive(Clone, Debug, Default)]
pub struct Quiz {
    /// Its questions.
    pub questions: Vec<Question>,
    /// How well looks foretell grades over all charts, in words.
    pub agreement: Option<String>,
}

/// The questions, drawn as they are printed: the pairs in which look and grade disagree most, each chart in at most two.
#[must_use]
pub fn quiz(charts: &[QuizChart<'_>], print: &Print, wording: Wording) -> Quiz {
    let grade = |i: usize| charts.get(i).map_or(0.0, |c| c.studied.grade.grade);
    let busy = |i: usize| charts.get(i).map_or(0.0, |c| c.studied.measures.busyness);
    let mut pairs: Vec<(f64, usize, usize)> = Vec::new();
    for harder in 0..charts.len() {
        for easier in 0..charts.len() {
            let (grades, looks) = (grade(harder) - grade(easier), busy(easier) - busy(harder));
            if grades >= CLEARLY_HARDER && looks >= CLEARLY_BUSIER {
                pairs.push((grades + looks, harder, easier));
            }
        }
    }
    pairs.sort_by(|a, b| b.0.total_cmp(&a.0).then((a.1, a.2).cmp(&(b.1, b.2))));
    let mut used: Vec<usize> = Vec::new();
    let mut questions = Vec::new();
    for (_, harder, easier) in pairs {
        let worn = |chart: usize| used.iter().filter(|u| **u == chart).count() >= MOST_SHOWN;
        if worn(harder) || worn(easier) || questions.len() == MOST {
            continue;
        }
        used.extend([harder, easier]);
        let (Some(h), Some(e)) = (charts.get(harder), charts.get(easier)) else {
            continue;
        };
        let number = questions.len() + 1;
        // The harder one stands left in every second and third question of four, so that place tells nothing.
        let harder_first = matches!(number % 4, 2 | 3);
        let (a, b) = if harder_first { (h, e) } else { (e, h) };
        let letters = if harder_first { ["A", "B"] } else { ["B", "A"] };
        questions.push(Question {
            number,
            drawings: [a, b].map(|c| {
                let alt = glance_alt(&c.chart.title);
                glance(
                    c.chart,
                    &c.looks,
                    (!print.is_black(), print.is_large()),
                    alt,
                )
            }),
            titles: [a, b].map(|c| c.chart.title.clone()),
            answer: pair_answer([h, e].map(side), letters, wording),
        });
    }
    let each =
        |value: &dyn Fn(usize) -> f64| -> Vec<f64> { (0..charts.len()).map(value).collect() };
    let agreement = kendall_tau_b(&each(&busy), &each(&grade));
    Quiz {
        questions,
        agreement: agreement.map(|tau| agreement_text(charts.len(), tau)),
    }
}

fn side<'a>(chart: &'a QuizChart<'_>) -> (&'a Chart, &'a Studied<'a>) {
    (chart.chart, chart.studied)
}
