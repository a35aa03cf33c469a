//! What instructions are made of.

/// A step of the instructions.
#[derive(Clone, Debug)]
pub struct Instruction {
    /// Its name.
    pub title: String,
    /// What to do, in Markdown.
    pub text: String,
}

/// Rounds of all sizes side by side.
#[derive(Clone, Debug)]
pub struct RoundTable {
    /// Its title.
    pub title: String,
    /// The heads: what is counted, then each size.
    pub head: Vec<String>,
    /// A row for each round or stage.
    pub rows: Vec<Vec<String>>,
    /// What stands beneath; may be empty.
    pub note: String,
    /// Whether its cells are words, set to the left, rather than figures.
    pub words: bool,
    /// The column of the learner's own size, if one is to stand out.
    pub yours: Option<usize>,
}
