//! The values of a file without their places, to compare what a file says before and after an edit.

use serde_json::Value;

use crate::read::change::{At, Change};
use crate::read::node::{Kind, Node};

/// A value of a file: everything single is text, as it is read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Tree {
    Text(String),
    List(Vec<Self>),
    Map(Vec<(String, Self)>),
}

/// The values of a node.
pub(super) fn tree_of(node: &Node) -> Tree {
    match &node.kind {
        _ if node.is_empty() => Tree::Text(String::new()),
        // How many empty lines stand behind a block says nothing in our files.
        Kind::Scalar { text, .. } => Tree::Text(text.trim_end_matches('\n').to_owned()),
        Kind::List(items) => Tree::List(items.iter().map(tree_of).collect()),
        Kind::Map(entries) => {
            let each = entries.iter();
            let each = each.map(|(key, value)| {
                let key = key.text().unwrap_or_default().to_owned();
                (key, tree_of(value))
            });
            Tree::Map(each.collect())
        }
    }
}

impl Tree {
    fn is_gone(&self) -> bool {
        *self == Self::Map(Vec::new())
    }

    /// Makes the change; `None` when the way leads nowhere.
    pub(super) fn change(&mut self, at: &[At], change: &Change) -> Option<()> {
        let Some((step, rest)) = at.split_first() else {
            *self = of_change(change)?;
            return Some(());
        };
        match (self, step) {
            (Self::List(items), At::Item(index))
                if rest.is_empty() && *change == Change::Remove =>
            {
                (*index < items.len())
                    .then(|| items.remove(*index))
                    .map(|_| ())
            }
            (Self::List(items), At::Item(index)) => items.get_mut(*index)?.change(rest, change),
            (Self::Map(entries), At::Key(key)) => {
                let place = entries.iter().position(|(name, _)| name == key);
                match place {
                    Some(place) if rest.is_empty() && *change == Change::Remove => {
                        entries.remove(place);
                        Some(())
                    }
                    Some(place) => {
                        entries.get_mut(place)?.1.change(rest, change)?;
                        // A map without its last key goes, too.
                        let gone = entries.get(place).is_some_and(|(_, value)| value.is_gone());
                        if gone && *change == Change::Remove {
                            entries.remove(place);
                        }
                        Some(())
                    }
                    None if *change == Change::Remove => Some(()),
                    None => {
                        let mut value = Self::Text(String::new());
                        value.change(rest, change)?;
                        entries.push((key.clone(), value));
                        Some(())
                    }
                }
            }
            // An empty value gives way to a map.
            (this @ Self::Text(_), At::Key(key)) if *this == Self::Text(String::new()) => {
                let mut value = Self::Text(String::new());
                value.change(rest, change)?;
                *this = Self::Map(vec![(key.clone(), value)]);
                Some(())
            }
            _ => None,
        }
    }
}

fn of_change(change: &Change) -> Option<Tree> {
    match change {
        Change::Block(text) | Change::Text(text) => {
            Some(Tree::Text(text.trim_end_matches('\n').to_owned()))
        }
        Change::Value(value) => Some(of_value(value)),
        Change::Remove => None,
    }
}

fn of_value(value: &Value) -> Tree {
    match value {
        Value::Null => Tree::Text(String::new()),
        Value::String(text) => Tree::Text(text.trim_end_matches('\n').to_owned()),
        Value::Array(items) => Tree::List(items.iter().map(of_value).collect()),
        Value::Object(entries) => {
            let each = entries.iter();
            Tree::Map(each.map(|(k, v)| (k.clone(), of_value(v))).collect())
        }
        other => Tree::Text(other.to_string()),
    }
}
