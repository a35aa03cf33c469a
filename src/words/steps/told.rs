//! What instructions are made of.

/// A step of the instructions.
#[derive(Clone, Debug, Default)]
pub struct Instruction {
    /// Its name.
    pub title: String,
    /// What to do, in Markdown.
    pub text: String,
    /// Rounds to tick off.
    pub boxes: usize,
    /// Stripes to work one after the other.
    pub stripes: Vec<StripeLine>,
}

impl Instruction {
    /// A step without boxes and stripes.
    #[must_use]
    pub fn new(title: &str, text: String) -> Self {
        Self {
            title: title.to_owned(),
            text,
            ..Self::default()
        }
    }
}

/// A stripe of a step.
#[derive(Clone, Debug)]
pub struct StripeLine {
    /// The place of its yarn among the lesson's yarns.
    pub yarn: usize,
    /// Its yarn, its rounds, and what is done after them.
    pub words: String,
    /// Rounds to tick off.
    pub boxes: usize,
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

/// What differs from size to size before a stitch is worked, sizes across.
#[derive(Clone, Debug)]
pub struct SizeTable {
    /// The heads: `Size`, then each size.
    pub head: Vec<String>,
    /// A row for each measure and count, then one for each yarn with its place among the lesson's yarns.
    pub rows: Vec<(Option<usize>, Vec<String>)>,
    /// What the yarn is; may be empty.
    pub note: String,
    /// The column of the learner's own size, if one is to stand out.
    pub yours: Option<usize>,
}
