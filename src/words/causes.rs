//! Why a part is as high as it is, in plain words, and what would lower it.

use crate::course::{Budget, Part};
use crate::ground::units::{Length, plain_number};
use crate::path::{Gap, Placed};
use crate::rows::grade::{Cause, Fact, HandlingReason, NARROW_TUBE};
use crate::words::numbers::{capital, count, join_and, join_titles, number_word};
use crate::words::rows::RowNames;
use crate::words::skills::technique_titles;
use crate::words::terms::Wording;
use crate::words::{round_text, short_text};

/// A verdict and the fact under it, as they stand beside a measure bar.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PartWords {
    /// The part's name.
    pub name: String,
    /// A verdict in two to four words.
    pub verdict: String,
    /// The fact.
    pub fact: String,
}

/// The name of a part on pages.
#[must_use]
pub fn part_title(part: Part, wording: Wording) -> String {
    match part {
        Part::Floats => "Floats",
        Part::Colours => return capital(wording.colours()),
        Part::Reading => "Reading",
        Part::Relief => "Relief",
        Part::Handling => "Handling",
    }
    .to_owned()
}

/// The name of a part where its cause is known: what floats in one craft travels in another.
#[must_use]
pub fn part_name(part: Part, cause: &Cause, wording: Wording) -> String {
    match cause.fact {
        Fact::Travel { .. } => "Behind the cloth".to_owned(),
        Fact::Blocks { .. } => "Counting".to_owned(),
        _ => part_title(part, wording),
    }
}

/// Verdict and fact of a part.
#[must_use]
pub fn part_words(part: Part, value: f64, cause: &Cause, names: &RowNames) -> PartWords {
    let name = part_name(part, cause, names.wording);
    PartWords {
        name,
        verdict: verdict(part, value, cause, names),
        fact: cause_text(part, cause, names),
    }
}

fn verdict(part: Part, value: f64, cause: &Cause, names: &RowNames) -> String {
    let words = match (part, &cause.fact) {
        (_, Fact::Travel { mm, .. }) if *mm <= 0.0 => "Nothing travels",
        (_, Fact::Travel { .. }) => "Short ways, behind stitches",
        (_, Fact::Threads { .. }) => "One after the other",
        (_, Fact::Blocks { .. }) if value < 0.5 => "Easy to count",
        (_, Fact::Blocks { .. }) if value < 0.75 => "Count every area",
        (_, Fact::Blocks { .. }) => "Count every cross",
        (Part::Floats, Fact::None) => "Nothing floats",
        (Part::Floats, Fact::LongestFloat { carried: true, .. }) => names.carried.0,
        (Part::Floats, Fact::LongestFloat { rows_over: 0, .. }) => "Short: nothing to catch",
        (Part::Floats, Fact::LongestFloat { rows_over: 1, .. }) => "Short, but one to catch",
        (Part::Floats, _) if value < 0.6 => "Some to catch",
        (Part::Floats, _) => "Long, and many to catch",
        (Part::Colours, Fact::ColoursAtOnce { most: 0 | 1, .. }) => "One at a time",
        (Part::Colours, Fact::ColoursAtOnce { most: 2, .. }) => "Two at a time",
        (Part::Colours, _) => "Three or more at a time",
        (Part::Reading, Fact::None) => "Nothing to read",
        (Part::Reading, _) if value < 0.25 => "Easy to remember",
        (Part::Reading, _) if value < 0.5 => "Look up now and then",
        (Part::Reading, _) if value < 0.75 => "Keep the chart beside you",
        (Part::Reading, _) => "Eyes on the chart",
        (Part::Relief, Fact::None) => "All of it is rest",
        (Part::Relief, _) if value < 0.4 => "Rest comes often",
        (Part::Relief, _) if value < 0.7 => "A rest now and then",
        (Part::Relief, _) => "Hardly a rest",
        (Part::Handling, Fact::Handling(_)) if names.is_knitted => "More than knitting on",
        (Part::Handling, Fact::Handling(_)) => "More than going on",
        (Part::Handling, _) => "Nothing besides",
    };
    words.to_owned()
}

/// The cause of a part in one sentence without a full stop.
#[must_use]
pub fn cause_text(part: Part, cause: &Cause, names: &RowNames) -> String {
    let (line, lines) = (names.line, names.lines);
    let (colour, colours) = (names.wording.colour(), names.wording.colours());
    let at = cause.row.map(|row| names.in_row(row)).unwrap_or_default();
    match &cause.fact {
        Fact::LongestFloat {
            stitches,
            mm,
            limit,
            rows_over,
            colour,
            carried,
        } => {
            let strand = names.colour(*colour);
            let length = short_text(Length::mm(*mm), names.wording.units());
            let longest = format!(
                "{strand} passes {} ({length}){at}",
                count(*stitches, "stitch", "stitches")
            );
            match rows_over {
                _ if *carried => format!("{longest}, {}", names.carried.1),
                0 => longest,
                _ => format!("{longest}; {} over {limit}", count(*rows_over, line, lines)),
            }
        }
        Fact::Travel { mm, starts } => {
            let begun = count(*starts, "time", "times");
            match short_text(Length::mm(*mm), names.wording.units()) {
                _ if *mm <= 0.0 => format!("A thread is begun at least {begun}"),
                far => format!("The longest way is {far}; a thread is begun at least {begun}"),
            }
        }
        Fact::Threads { total, most } => format!(
            "{}, at most {} in a row of squares",
            count(*total, "thread", "threads"),
            number_word(*most)
        ),
        Fact::Blocks { mean, most } => format!(
            "{} areas of {colour} in a square of ten by ten, at most {most}",
            plain_number(*mean, 1)
        ),
        Fact::ColoursAtOnce { most, ends } => {
            let ends = count(*ends, "end", "ends");
            format!(
                "At most {} in a {line}; {ends} to weave in",
                number_word(*most)
            )
        }
        Fact::Looks { looks, chunks } => {
            let blocks = count(*chunks, "block of", "blocks of");
            format!("{}{at}: {blocks} {colour}", count(*looks, "look", "looks"))
        }
        Fact::Stretch {
            rows,
            relief,
            endless,
        } => {
            if *endless {
                format!("No {line} of one {colour}: it goes on without rest")
            } else {
                let plain = count(*relief, &format!("plain {line}"), &format!("plain {lines}"));
                format!("{plain}; at most {rows} without one")
            }
        }
        Fact::Handling(reasons) => {
            let reasons: Vec<String> = reasons
                .iter()
                .map(|reason| handling_words(*reason, names))
                .collect();
            capital(&join_and(&reasons))
        }
        Fact::None => match part {
            Part::Floats => format!("No {line} has two {colours}"),
            Part::Reading => format!("Every {line} is plain, or like the one beneath"),
            Part::Relief => format!("Every {line} is of one {colour}"),
            _ => format!("Plain work, {line} after {line}"),
        },
    }
}

fn handling_words(reason: HandlingReason, names: &RowNames) -> String {
    let wording = names.wording;
    match reason {
        HandlingReason::PurlingBack if !names.is_knitted => {
            return format!("rows of the wrong side in two {}", wording.colours());
        }
        HandlingReason::PurlingBack => {
            return format!("purling back in two {}", wording.colours());
        }
        HandlingReason::Shaping => "shaping inside the pattern",
        HandlingReason::Yoke => "body and sleeves on one needle",
        HandlingReason::NarrowTube => {
            let girth = round_text(NARROW_TUBE, wording.units());
            return format!("a tube under {girth} round");
        }
        HandlingReason::Steek => "a steek",
    }
    .to_owned()
}

/// What would lower a part; `None` where nothing is to be lowered.
#[must_use]
pub fn lower_text(value: f64, cause: &Cause, names: &RowNames) -> Option<String> {
    if value <= 0.0 {
        return None;
    }
    let line = names.line;
    let colour = names.wording.colour();
    let text = match &cause.fact {
        Fact::LongestFloat { carried: true, .. } => {
            format!("a motif with shorter runs of one {colour}")
        }
        Fact::LongestFloat {
            stitches,
            limit,
            rows_over,
            ..
        } if *rows_over > 0 => format!(
            "a stitch of the resting {colour} inside each run of more than {limit} (the longest is {stitches})"
        ),
        Fact::LongestFloat { .. } => {
            format!("shorter runs of one {colour}, or thinner yarn")
        }
        Fact::Threads { .. } => format!("fewer {}", names.wording.colours()),
        Fact::Travel { .. } => format!("areas of one {colour} closer to each other"),
        Fact::Blocks { .. } => format!("larger areas of one {colour}"),
        Fact::ColoursAtOnce { most, .. } if *most > 2 => {
            format!("the third {colour} in {line}s of its own, two at a time")
        }
        Fact::ColoursAtOnce { .. } => {
            format!("more {line}s of one {colour}, fewer changes of yarn")
        }
        Fact::Looks { .. } => "a shorter repeat, or rows that repeat the one beneath".to_owned(),
        Fact::Stretch { .. } => format!("a plain {line} inside the longest stretch"),
        Fact::Handling(reasons) if reasons.contains(&HandlingReason::PurlingBack) => {
            "working in the round, so that every row is a right-side row".to_owned()
        }
        Fact::Handling(_) | Fact::None => return None,
    };
    Some(text)
}

/// Why a step is over its budget.
#[must_use]
pub fn gap_cause(gap: &Gap, placed: &Placed, budget: Budget, wording: Wording) -> String {
    let mut causes = Vec::new();
    if gap.too_large {
        let raised = &placed.step.raised;
        let most = Part::ALL
            .into_iter()
            .max_by(|a, b| raised[a.index()].total_cmp(&raised[b.index()]));
        let part = most.filter(|part| raised[part.index()] > 0.0);
        let of = part.map_or_else(
            || "all of it new techniques".to_owned(),
            |part| {
                let raise = match part {
                    Part::Floats | Part::Colours => "raise",
                    Part::Reading | Part::Relief | Part::Handling => "raises",
                };
                format!(
                    "{} alone {raise} it by {}",
                    part_title(part, wording).to_lowercase(),
                    plain_number(raised[part.index()], 1)
                )
            },
        );
        let step = plain_number(placed.step.size, 1);
        causes.push(format!(
            "a step of {step} where {} is allowed; {of}",
            plain_number(gap.budget, 1)
        ));
    }
    if gap.too_many {
        let new = technique_titles(&placed.step.new_techniques, wording);
        causes.push(format!(
            "{} new techniques where {} are allowed: {}",
            number_word(new.len()),
            number_word(budget.techniques),
            join_titles(&new)
        ));
    }
    causes.join("; ")
}
