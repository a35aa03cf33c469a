//! What is asked: a request taken in whole, with the names that stand in its address.

use std::sync::Arc;

use axum::body::Bytes;
use axum::extract::Query;
use axum::http::Uri;
use serde::de::DeserializeOwned;

use crate::desk::http::shared::Keys;
use crate::desk::refusal::Refusal;
use crate::desk::state::Desk;
use crate::read::is_id;

/// A request.
pub(super) struct Asked {
    pub desk: Arc<Desk>,
    pub keys: Arc<Keys>,
    pub uri: Uri,
    pub body: Bytes,
    /// What stands in the address where the table has a star.
    pub names: Vec<String>,
}

impl Asked {
    /// A name of the address as it stands there.
    pub(super) fn name(&self, place: usize) -> &str {
        self.names.get(place).map_or("", String::as_str)
    }

    /// An id of the address: no path ever comes of anything else.
    ///
    /// # Errors
    /// When it is none.
    pub(super) fn id(&self, place: usize) -> Result<&str, Refusal> {
        id(self.name(place))
    }

    /// The id before an ending.
    ///
    /// # Errors
    /// When there is none.
    pub(super) fn stem(&self, ending: &str) -> Result<&str, Refusal> {
        let name = self.name(0);
        let stem = name.strip_suffix(ending);
        id(stem.ok_or_else(|| Refusal::unknown("picture", name))?)
    }

    /// What was sent, understood.
    ///
    /// # Errors
    /// When it is not that.
    pub(super) fn sent<T: DeserializeOwned>(&self) -> Result<T, Refusal> {
        serde_json::from_slice(&self.body)
            .map_err(|error| Refusal::senseless(format!("this cannot be understood: {error}")))
    }

    /// What stands behind the question mark, understood.
    ///
    /// # Errors
    /// When it is not that.
    pub(super) fn query<T: DeserializeOwned>(&self) -> Result<T, Refusal> {
        match Query::try_from_uri(&self.uri) {
            Ok(Query(query)) => Ok(query),
            Err(error) => Err(Refusal::senseless(format!(
                "this cannot be understood: {error}"
            ))),
        }
    }
}

/// An id.
///
/// # Errors
/// When it is none.
pub(super) fn id(text: &str) -> Result<&str, Refusal> {
    match is_id(text) {
        true => Ok(text),
        false => Err(Refusal::unknown("chart or lesson", text)),
    }
}
