//! What the desk does not do, and why.

use serde_json::{Value, json};

use crate::app::store::StoreError;

/// A refusal: a status of HTTP, a sentence, a way out, and how a file stands now where that is what it is about.
#[derive(Clone, Debug)]
pub(super) struct Refusal {
    pub status: u16,
    pub message: String,
    pub help: Option<String>,
    pub file: Option<Value>,
}

impl Refusal {
    pub(super) fn new(status: u16, message: impl Into<String>) -> Self {
        Self {
            status,
            message: message.into(),
            help: None,
            file: None,
        }
    }

    /// What was sent makes no sense.
    pub(super) fn senseless(message: impl Into<String>) -> Self {
        Self::new(400, message)
    }

    /// There is no such thing.
    pub(super) fn unknown(what: &str, id: &str) -> Self {
        // What a stranger sent is not said again at length.
        let id: String = id.chars().take(80).collect();
        Self::new(404, format!("there is no {what} `{id}`"))
    }

    /// It cannot be done as things are.
    pub(super) fn cannot(message: impl Into<String>) -> Self {
        Self::new(422, message)
    }

    /// Somebody changed it meanwhile.
    pub(super) fn changed() -> Self {
        Self::new(409, "this was changed in another window meanwhile")
    }

    /// With a way out.
    #[must_use]
    pub(super) fn help(self, help: impl Into<String>) -> Self {
        Self {
            help: Some(help.into()),
            ..self
        }
    }

    /// With how the file stands now.
    #[must_use]
    pub(super) fn with_file(self, file: Value) -> Self {
        Self {
            file: Some(file),
            ..self
        }
    }

    /// The answer's body.
    pub(super) fn body(&self) -> Value {
        json!({"message": self.message, "help": self.help, "file": self.file})
    }
}

impl From<StoreError> for Refusal {
    fn from(error: StoreError) -> Self {
        if let StoreError::Changed(_) = error {
            return Self::new(409, "the file was changed beside the desk");
        }
        Self::new(507, error.to_string())
            .help("nothing was changed; make room on the disk or look whether the folder may be written to")
    }
}
