//! Trade words on both sides of the ocean, names of techniques, numbers in sentences.

use std::collections::BTreeMap;

use crate::course::Terms;
use crate::rows::grade::{Skill, split_craft};

/// The words that differ, by the key templates use (`{{ t.cast_off }}`).
#[derive(Clone, Debug)]
pub struct Wording {
    /// Key -> word.
    pub words: BTreeMap<&'static str, &'static str>,
}

impl Wording {
    /// The words of one side.
    #[must_use]
    pub fn of(terms: Terms) -> Self {
        let pairs = [
            ("cast_off", "cast off", "bind off"),
            ("tension", "tension", "gauge"),
            ("dc", "double crochet", "single crochet"),
            ("colour", "colour", "color"),
            ("colours", "colours", "colors"),
            ("grey", "grey", "gray"),
            ("left", "left", "left"),
            ("right", "right", "right"),
        ];
        let words = pairs.map(|(key, uk, us)| (key, if terms == Terms::Us { us } else { uk }));
        Self {
            words: words.into_iter().collect(),
        }
    }

    /// The same words for somebody who works from left to right: every side is the other one.
    #[must_use]
    pub fn for_left_hand(mut self) -> Self {
        self.words.extend([("left", "right"), ("right", "left")]);
        self
    }
}

/// The name of a technique on pages. Unknown ones are shown as written, hyphens as blanks.
#[must_use]
pub fn technique_title(id: &str) -> String {
    let (craft, name) = split_craft(id);
    let title = match Skill::of(name) {
        Some(skill) => skill_title(skill).to_owned(),
        None if name == "duplicate-stitch" => "Stitches worked over".to_owned(),
        None if name == "steek" => "A steek".to_owned(),
        None => sentence_case(name),
    };
    match craft {
        Some(craft) => {
            let mut chars = title.chars();
            let first: String = chars
                .next()
                .map(|c| c.to_lowercase().collect())
                .unwrap_or_default();
            format!("{}: {first}{}", sentence_case(craft), chars.as_str())
        }
        None => title,
    }
}

fn skill_title(skill: Skill) -> &'static str {
    match skill {
        Skill::Stripes => "Stripes",
        Skill::JoiningColours => "Joining a colour",
        Skill::TwoColours => "Two colours in a round",
        Skill::ThreeColours => "Three colours in a round",
        Skill::Catching => "Catching a float",
        Skill::StaggeredCatches => "Staggering the catches",
        Skill::LongUnit => "A long unit",
        Skill::PurlInColour => "Purling in two colours",
        Skill::ShapingInColour => "Shaping in colour",
        Skill::NarrowTube => "Working a narrow tube",
        Skill::CrownDecreases => "Closing a crown",
        Skill::Thumb => "A thumb",
        Skill::JoiningSleeves => "Joining the sleeves",
        Skill::Underarm => "The underarm",
        Skill::ShortRows => "Short rows",
    }
}

/// The names of techniques, in the order given.
#[must_use]
pub fn technique_titles(ids: &[String]) -> Vec<String> {
    ids.iter().map(|id| technique_title(id)).collect()
}

fn sentence_case(id: &str) -> String {
    let text = id.replace('-', " ");
    let mut chars = text.chars();
    let first: String = chars
        .next()
        .map(|c| c.to_uppercase().collect())
        .unwrap_or_default();
    first + chars.as_str()
}

/// `1 stitch`, `5 stitches`.
#[must_use]
pub fn count(n: usize, one: &str, many: &str) -> String {
    if n == 1 {
        format!("1 {one}")
    } else {
        format!("{n} {many}")
    }
}

/// Small numbers as words.
#[must_use]
pub fn number_word(n: usize) -> String {
    const WORDS: [&str; 13] = [
        "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
        "eleven", "twelve",
    ];
    WORDS
        .get(n)
        .map_or_else(|| n.to_string(), |word| (*word).to_owned())
}

/// `a`, `a and b`, `a, b and c`.
#[must_use]
pub fn join_and<S: AsRef<str>>(items: &[S]) -> String {
    match items {
        [] => String::new(),
        [one] => one.as_ref().to_owned(),
        [most @ .., last] => {
            let most: Vec<&str> = most.iter().map(AsRef::as_ref).collect();
            format!("{} and {}", most.join(", "), last.as_ref())
        }
    }
}

/// Titles in a sentence: the first as it stands, the others with a small letter: `Joining a colour and stripes`.
#[must_use]
pub fn join_titles(titles: &[String]) -> String {
    let small = |(i, title): (usize, &String)| {
        let mut chars = title.chars();
        match chars.next() {
            Some(first) if i > 0 => first.to_lowercase().chain(chars).collect(),
            _ => title.clone(),
        }
    };
    join_and(
        &titles
            .iter()
            .enumerate()
            .map(small)
            .collect::<Vec<String>>(),
    )
}

/// Numbers as a list: `4 and 9`.
#[must_use]
pub fn list_and<T: ToString>(numbers: &[T]) -> String {
    join_and(&numbers.iter().map(T::to_string).collect::<Vec<_>>())
}
