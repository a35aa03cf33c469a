//! What goes wrong, technique by technique, as a teacher sees it.

use std::collections::BTreeMap;
use std::sync::LazyLock;

/// The items of a technique, in Markdown; none of a technique that has none in its own craft.
#[must_use]
pub(super) fn pitfalls(id: &str) -> &'static [String] {
    static ALL: LazyLock<BTreeMap<String, Vec<String>>> =
        LazyLock::new(|| read(include_str!("../../templates/pitfalls.md")));
    ALL.get(id).map(Vec::as_slice).unwrap_or_default()
}

/// Headings are ids, list items belong to the heading above them.
fn read(text: &str) -> BTreeMap<String, Vec<String>> {
    let mut all: BTreeMap<String, Vec<String>> = BTreeMap::new();
    let mut id = String::new();
    for line in text.lines() {
        if let Some(heading) = line.strip_prefix("## ") {
            id = heading.trim().to_owned();
        } else if let Some(item) = line.strip_prefix("- ") {
            all.entry(id.clone()).or_default().push(item.to_owned());
        }
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::handout::BUILT_IN_CARDS;

    #[test]
    fn every_technique_with_a_card_has_its_pitfalls() {
        for (id, _) in BUILT_IN_CARDS {
            let items = pitfalls(id);
            assert!((2..=3).contains(&items.len()), "{id}: {}", items.len());
            for item in items {
                let parts = ["**You see** ", "**Because** ", "**Do** "];
                assert!(parts.iter().all(|part| item.contains(part)), "{id}: {item}");
            }
        }
    }
}
