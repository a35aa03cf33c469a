//! "Which is harder?": pairs of charts of near grade; in some the busier one is the harder, in others the calmer one.

use crate::course::chart::Chart;
use crate::handout::Print;
use crate::picture::{Drawing, InkLook, glance, in_greys, shared_columns};
use crate::study::Studied;
use crate::words::pictures::glance_alt;
use crate::words::{
    CLEARLY, Contender, Looks, RowNames, Verdict, Wording, literal, looks_text, verdict,
};

/// Grades that differ by less are as good as the same; by more, nobody needs to ask.
const NEAR: std::ops::RangeInclusive<f64> = CLEARLY..=15.0;
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

impl<'a> QuizChart<'a> {
    /// As one of two.
    #[must_use]
    pub fn contender(&self, letter: &'a str, wording: Wording) -> Contender<'a> {
        let yarns = self.looks.iter().map(|look| look.name.clone()).collect();
        Contender {
            letter,
            title: &self.chart.title,
            studied: self.studied,
            names: RowNames::of_chart(self.chart, yarns, wording),
        }
    }
}

/// A pair of charts.
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
    /// How far looks foretell grades over all charts, in words.
    pub looks: Option<String>,
}

/// Two charts worth asking about, by index.
#[derive(Clone, Copy, Debug)]
struct Pair {
    harder: usize,
    easier: usize,
    /// Whether the busier one is the harder.
    as_it_looks: bool,
    /// By how much one looks busier.
    busier: f64,
}

/// The questions, drawn as they are printed: no chart in more than two, the two kinds of pair by turns as far as there
/// are any, the plainest difference in looks first; easy charts stand before hard ones.
#[must_use]
pub fn quiz(charts: &[QuizChart<'_>], print: &Print, wording: Wording) -> Quiz {
    let grade = |i: usize| charts.get(i).map_or(0.0, |c| c.studied.grade.grade);
    let busy = |i: usize| charts.get(i).map_or(0.0, |c| c.studied.measures.busyness);
    let mut pairs: Vec<Pair> = Vec::new();
    for harder in 0..charts.len() {
        for easier in 0..charts.len() {
            let looks = busy(harder) - busy(easier);
            if NEAR.contains(&(grade(harder) - grade(easier))) && looks.abs() >= CLEARLY_BUSIER {
                pairs.push(Pair {
                    harder,
                    easier,
                    as_it_looks: looks > 0.0,
                    busier: looks.abs(),
                });
            }
        }
    }
    pairs.sort_by(|a, b| {
        let places = (a.harder, a.easier).cmp(&(b.harder, b.easier));
        b.busier.total_cmp(&a.busier).then(places)
    });
    let mut chosen = chosen(&pairs);
    chosen.sort_by(|a, b| {
        let both = |pair: &Pair| grade(pair.harder) + grade(pair.easier);
        both(a).total_cmp(&both(b))
    });
    let questions = chosen.iter().enumerate().filter_map(|(i, pair)| {
        let (h, e) = (charts.get(pair.harder)?, charts.get(pair.easier)?);
        Some(question(i + 1, (h, e), print, wording))
    });
    Quiz {
        questions: questions.collect(),
        looks: looks(charts).map(looks_text),
    }
}

/// Pairs of both kinds by turns, each chart in at most so many.
fn chosen(pairs: &[Pair]) -> Vec<Pair> {
    let mut chosen: Vec<Pair> = Vec::new();
    let mut wanted = false;
    while chosen.len() < MOST {
        let free = |chart: usize| {
            let shown = chosen
                .iter()
                .filter(|p| p.harder == chart || p.easier == chart);
            shown.count() < MOST_SHOWN
        };
        let new = |pair: &&Pair| {
            let asked = |p: &Pair| (p.harder, p.easier) == (pair.harder, pair.easier);
            free(pair.harder) && free(pair.easier) && !chosen.iter().any(asked)
        };
        let mut open = pairs.iter().filter(new);
        let first = open.clone().find(|pair| pair.as_it_looks == wanted);
        let Some(pair) = first.or_else(|| open.next()).copied() else {
            break;
        };
        wanted = !pair.as_it_looks;
        chosen.push(pair);
    }
    chosen
}

fn question(
    number: usize,
    (h, e): (&QuizChart<'_>, &QuizChart<'_>),
    print: &Print,
    wording: Wording,
) -> Question {
    // The harder one stands left in every second and third question of four, so that place tells nothing.
    let harder_first = matches!(number % 4, 2 | 3);
    let (a, b) = if harder_first { (h, e) } else { (e, h) };
    let [first, second] = [a.contender("A", wording), b.contender("B", wording)];
    let Verdict { verdict, why, .. } = verdict(&first, &second);
    Question {
        number,
        drawings: pair_drawings(a, b, print),
        answer: format!("**{verdict}**, {}", literal(&why)),
        titles: [a, b].map(|c| c.chart.title.clone()),
    }
}

/// Two charts at one scale.
#[must_use]
pub fn pair_drawings(a: &QuizChart<'_>, b: &QuizChart<'_>, print: &Print) -> [Drawing; 2] {
    let columns = shared_columns(a.chart, b.chart);
    [a, b].map(|c| {
        let mut looks = c.looks.clone();
        if print.is_black() {
            // As dark beside each other as their yarns are.
            let colours: Vec<_> = looks.iter().map(|look| look.rgb).collect();
            for (look, grey) in looks.iter_mut().zip(in_greys(&colours)) {
                look.rgb = grey;
            }
        }
        let alt = glance_alt(&c.chart.title);
        glance(c.chart, &looks, (columns, print.is_large()), alt)
    })
}

/// In how many pairs of all charts the busier one is the harder; `None` where no two differ in both.
fn looks(charts: &[QuizChart<'_>]) -> Option<Looks> {
    let mut found = Looks::default();
    for (i, a) in charts.iter().enumerate() {
        for b in charts.iter().skip(i + 1) {
            let grade = a.studied.grade.grade - b.studied.grade.grade;
            let busy = a.studied.measures.busyness - b.studied.measures.busyness;
            found.pairs += usize::from(grade * busy != 0.0);
            found.as_they_are += usize::from(grade * busy > 0.0);
        }
    }
    (found.pairs > 0).then_some(found)
}

#[cfg(test)]
mod tests {
    use super::{Pair, chosen};

    #[test]
    fn no_chart_is_asked_about_three_times_and_kinds_take_turns() {
        let pair = |harder, easier, as_it_looks| Pair {
            harder,
            easier,
            as_it_looks,
            busier: 10.0,
        };
        let one_in_all: Vec<Pair> = (1..6).map(|other| pair(0, other, true)).collect();
        assert_eq!(chosen(&one_in_all).len(), 2);
        // The calm one harder first, then by turns, then what is left.
        let kinds = [true, true, false, true, false];
        let pairs: Vec<Pair> = (0..)
            .zip(kinds)
            .map(|(i, kind)| pair(2 * i, 2 * i + 1, kind))
            .collect();
        let asked: Vec<bool> = chosen(&pairs).iter().map(|pair| pair.as_it_looks).collect();
        assert_eq!(asked, [false, true, false, true, true]);
    }
}
