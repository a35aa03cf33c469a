//! The built-in technique cards.

use std::collections::BTreeMap;

use crate::rows::grade::Skill;

macro_rules! cards {
    ($($id:literal = $file:literal),* $(,)?) => {
        /// Id and Markdown of every built-in card.
        pub const BUILT_IN_CARDS: &[(&str, &str)] =
            &[$(($id, include_str!(concat!("../../templates/techniques/", $file, ".md")))),*];
    };
}

cards! {
    "blocking" = "blocking",
    "catching" = "catching",
    "colour-run" = "colour-run",
    "counted-thread/blocking" = "counted-thread--blocking",
    "counted-thread/catching" = "counted-thread--catching",
    "counted-thread/first-steps" = "counted-thread--first-steps",
    "counted-thread/hem" = "counted-thread--hem",
    "counted-thread/joining-colours" = "counted-thread--joining-colours",
    "counted-thread/three-colours" = "counted-thread--three-colours",
    "counted-thread/two-colours" = "counted-thread--two-colours",
    "crochet/blocking" = "crochet--blocking",
    "crochet/crown-decreases" = "crochet--crown-decreases",
    "crochet/crown-increases" = "crochet--crown-increases",
    "crochet/edging" = "crochet--edging",
    "crochet/first-steps" = "crochet--first-steps",
    "crochet/joining-colours" = "crochet--joining-colours",
    "crochet/purl-in-colour" = "crochet--purl-in-colour",
    "crochet/stripes" = "crochet--stripes",
    "crochet/three-colours" = "crochet--three-colours",
    "crochet/two-colours" = "crochet--two-colours",
    "crochet/weaving-in-ends" = "crochet--weaving-in-ends",
    "crown-decreases" = "crown-decreases",
    "dominance" = "dominance",
    "duplicate-stitch" = "duplicate-stitch",
    "even-floats" = "even-floats",
    "hat-as-swatch" = "hat-as-swatch",
    "joining-colours" = "joining-colours",
    "joining-in-the-round" = "joining-in-the-round",
    "joining-sleeves" = "joining-sleeves",
    "knit/first-steps" = "knit--first-steps",
    "long-unit" = "long-unit",
    "narrow-tube" = "narrow-tube",
    "plain-rows" = "plain-rows",
    "purl-in-colour" = "purl-in-colour",
    "reading-a-chart" = "reading-a-chart",
    "round-start" = "round-start",
    "shaping-in-colour" = "shaping-in-colour",
    "short-rows" = "short-rows",
    "sleeve-increases" = "sleeve-increases",
    "staggered-catches" = "staggered-catches",
    "steek" = "steek",
    "stripes" = "stripes",
    "swatch-in-the-round" = "swatch-in-the-round",
    "three-colours" = "three-colours",
    "thumb" = "thumb",
    "tunisian/blocking" = "tunisian--blocking",
    "tunisian/first-steps" = "tunisian--first-steps",
    "tunisian/joining-colours" = "tunisian--joining-colours",
    "tunisian/stripes" = "tunisian--stripes",
    "tunisian/three-colours" = "tunisian--three-colours",
    "tunisian/two-colours" = "tunisian--two-colours",
    "tunisian/weaving-in-ends" = "tunisian--weaving-in-ends",
    "two-colours" = "two-colours",
    "underarm" = "underarm",
    "weaving-in-ends" = "weaving-in-ends",
}

/// The cards that a new technique brings: its own, and of joining sleeves that of the underarm with it.
#[must_use]
pub(super) fn cards_of(id: &str) -> Vec<&str> {
    match Skill::of(id) {
        Some(Skill::JoiningSleeves) => vec![id, "underarm"],
        _ => vec![id],
    }
}

/// The card of a technique: the course's own, else the built-in one; for another craft, where reading and planning
/// are the same, the plain one of the same name.
#[must_use]
pub fn card_source<'a>(id: &str, own: &'a BTreeMap<String, String>) -> Option<&'a str> {
    let built_in = |id: &str| {
        BUILT_IN_CARDS
            .iter()
            .find(|(known, _)| *known == id)
            .map(|(_, text)| *text)
    };
    let shared = |id: &str| {
        let (_, name) = id.split_once('/')?;
        matches!(name, "long-unit" | "staggered-catches")
            .then(|| built_in(name))
            .flatten()
    };
    own.get(id)
        .map(String::as_str)
        .or_else(|| built_in(id))
        .or_else(|| shared(id))
}
