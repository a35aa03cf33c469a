//! Words of the files for the variants of an enum, in one list each: what a key allows, and what it means.

/// The words alone.
#[must_use]
pub const fn words<T, const N: usize>(names: &[(T, &'static str); N]) -> [&'static str; N] {
    let mut words = [""; N];
    let mut i = 0;
    while i < N {
        words[i] = names[i].1;
        i += 1;
    }
    words
}

/// What a word means.
#[must_use]
pub fn meant<T: Copy>(names: &[(T, &'static str)], word: &str) -> Option<T> {
    let found = names.iter().find(|(_, name)| *name == word);
    found.map(|(what, _)| *what)
}

/// The word of a variant; empty for one that is not in the list.
#[must_use]
pub fn word_of<T: PartialEq>(names: &[(T, &'static str)], what: &T) -> &'static str {
    let found = names.iter().find(|(known, _)| known == what);
    found.map_or("", |(_, name)| name)
}
