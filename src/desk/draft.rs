//! A file as it stands on the desk, and what kind of file it is.

/// What a file is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum FileKind {
    /// A chart.
    Chart,
    /// A lesson.
    Lesson,
    /// The course's settings.
    Course,
    /// A card, a template.
    Other,
}

impl FileKind {
    /// The word for it.
    pub(super) const fn name(self) -> &'static str {
        match self {
            Self::Chart => "chart",
            Self::Lesson => "lesson",
            Self::Course => "course",
            Self::Other => "other",
        }
    }

    /// What a file of this text at this place is: whatever its keys say; where they say nothing, its place does.
    pub(super) fn of(inside: &str, text: &str) -> Self {
        let has = |key: &str| text.lines().any(|line| line.starts_with(key));
        match inside.split_once('/') {
            _ if inside == "course.yaml" => Self::Course,
            Some(("techniques" | "templates", _)) => Self::Other,
            _ if has("bands:") => Self::Lesson,
            _ if has("rows:") => Self::Chart,
            Some(("charts", _)) => Self::Chart,
            _ => Self::Lesson,
        }
    }
}

/// A file as it stands on the desk.
#[derive(Clone, Debug)]
pub(super) struct Draft {
    /// Its id.
    pub id: String,
    /// What it is.
    pub kind: FileKind,
    /// Its place in the course.
    pub inside: String,
    /// The text with all that was done to it.
    pub text: String,
    /// The number of this state.
    pub number: u64,
    /// Whether it differs from the file.
    pub changed: bool,
    /// Whether there is no file.
    pub fresh: bool,
    /// Whether there is a step before.
    pub undo: bool,
    /// Whether there is a step after.
    pub redo: bool,
    /// The file's text, where somebody changed it since the draft began.
    pub elsewhere: Option<String>,
    /// The file's text.
    pub disk: Option<String>,
    /// Whether the journal does not know the file's text yet, or there is none.
    pub behind: bool,
    /// Whether the file is gone and the draft holds nothing that was not saved.
    pub gone: bool,
}
