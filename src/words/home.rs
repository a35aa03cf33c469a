//! What a meeting leaves to do at home.

use crate::ground::units::plain_number;
use crate::words::{count, literal};

/// Hours at home that a swatch in the pattern takes instead of a piece. Our estimate, from 10 cm each way.
const SWATCH_HOURS: f64 = 1.5;

/// The work that a meeting leaves.
#[derive(Clone, Copy, Debug)]
pub struct HomeLoad<'a> {
    /// Its lessons and the hours that each leaves.
    pub lessons: &'a [(&'a str, f64)],
    /// Hours at home in a week.
    pub a_week: f64,
    /// Weeks until the next meeting; `None` after the last one.
    pub weeks: Option<f64>,
}

impl HomeLoad<'_> {
    fn needed(&self) -> f64 {
        self.lessons.iter().map(|(_, hours)| hours).sum()
    }

    fn there(&self) -> f64 {
        self.weeks
            .map_or(f64::INFINITY, |weeks| weeks * self.a_week)
    }

    /// Whether the weeks are enough.
    #[must_use]
    pub fn fits(&self) -> bool {
        self.needed() <= self.there() + 1e-9
    }

    /// The lesson that leaves most.
    fn heaviest(&self) -> Option<&(&str, f64)> {
        self.lessons.iter().max_by(|a, b| a.1.total_cmp(&b.1))
    }
}

/// What is left to do, whether it fits, and what would help; in Markdown.
#[must_use]
pub fn home_text(load: &HomeLoad<'_>) -> String {
    let hours = |hours: f64| plain_number(hours.max(0.0), u32::from(hours < 10.0));
    let weeks = |hours: f64| (hours / load.a_week.max(0.1) - 1e-9).ceil().max(1.0);
    let needed = load.needed();
    if needed < 0.05 {
        return "Nothing is left to do at home.".to_owned();
    }
    if load.weeks.is_none() {
        return format!(
            "What is left takes about {} hours at home: {} at {} hours.",
            hours(needed),
            count(weeks(needed) as usize, "week", "weeks"),
            plain_number(load.a_week, 1)
        );
    }
    let there = load.there();
    if load.fits() {
        return format!(
            "About {} hours are left to do at home until the next meeting; {} are there.",
            hours(needed),
            hours(there)
        );
    }
    let more = count(weeks(needed - there) as usize, "week", "weeks");
    let mut ways = vec![format!("{more} more before the next meeting")];
    if let Some((title, heavy)) = load.heaviest().filter(|(_, hours)| *hours > SWATCH_HOURS) {
        let left = needed - heavy + SWATCH_HOURS;
        let does = if left <= there {
            "which fits"
        } else {
            "which is not enough by itself"
        };
        ways.push(format!(
            "“{}” only as a swatch, which leaves {} hours, {does}",
            literal(title),
            hours(left)
        ));
    }
    if let [a, b] = load.lessons {
        let most = a.1.max(b.1);
        let does = if most <= there {
            "which fits"
        } else {
            "which is not enough by itself"
        };
        ways.push(format!(
            "each learner chooses “{}” or “{}”, {does}",
            literal(a.0),
            literal(b.0)
        ));
    }
    format!(
        "**This does not fit:** about {} hours are left to do at home until the next meeting, and {} are there. Ways out: {}.",
        hours(needed),
        hours(there),
        ways.join("; or ")
    )
}

/// Of which meetings the work at home does not fit.
#[must_use]
pub fn plan_text(over: &[usize]) -> String {
    match over {
        [] => "The work at home fits the weeks between the meetings.".to_owned(),
        [one] => format!(
            "After meeting {one} more is left to do at home than there are hours; it says what would help."
        ),
        all => format!(
            "After meetings {} more is left to do at home than there are hours; each says what would help.",
            crate::words::list_and(all)
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::{HomeLoad, home_text};

    #[test]
    fn ways_out_are_worked_out() {
        let lessons = [("Dunlin yoke", 30.0), ("Reed sampler", 3.0)];
        let load = |weeks| HomeLoad {
            lessons: &lessons,
            a_week: 3.0,
            weeks,
        };
        // 33 hours, six there: 27 more are nine weeks; a swatch leaves 33 - 30 + 1.5.
        let text = home_text(&load(Some(2.0)));
        for part in [
            "33 hours",
            "6 are there",
            "9 weeks more",
            "leaves 4.5 hours, which fits",
            "not enough by itself",
        ] {
            assert!(text.contains(part), "{part}: {text}");
        }
        assert!(home_text(&load(Some(10.5))).contains("1 week more"));
        assert!(load(Some(11.0)).fits() && !load(Some(10.9)).fits());
        assert!(home_text(&load(None)).contains("33 hours at home: 11 weeks"));
    }
}
