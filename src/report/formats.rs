//! The JSON Schemas (draft 7) of all answers. They are files, written for readers; whoever changes an answer changes its
//! file, and its number where old readers would stumble.

macro_rules! formats {
    ($($name:literal),* $(,)?) => {
        /// Name and schema of every answer.
        pub const FORMATS: [(&str, &str); [$($name),*].len()] =
            [$(($name, include_str!(concat!("../../templates/formats/", $name, ".json")))),*];
    };
}

formats!(
    "measure", "grade", "order", "proof", "fit", "next", "route", "tame", "compare", "judge",
    "stream", "pack", "trace",
);

/// The schema of an answer; `None` for a name that is none.
#[must_use]
pub fn schema(name: &str) -> Option<&'static str> {
    let mut all = FORMATS.iter();
    all.find(|(known, _)| *known == name).map(|(_, text)| *text)
}
