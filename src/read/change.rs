//! What is to be changed in a file: where, and to what.

use serde_json::Value;

/// The way from the top of a file to a value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum At {
    /// The value of a key.
    Key(String),
    /// The item of a list, from 0.
    Item(usize),
}

/// What becomes of a value.
#[derive(Clone, Debug, PartialEq)]
pub enum Change {
    /// Lines, written as a block.
    Block(String),
    /// One text, quoted where YAML needs it.
    Text(String),
    /// Anything, written on one line.
    Value(Value),
    /// It goes, and its key with it.
    Remove,
}
