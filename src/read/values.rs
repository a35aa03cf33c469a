//! Values of a tree by their keys.

use crate::ground::units::Length;
use crate::read::node::Node;

/// The text of a value inside a group.
pub(super) fn field<'a>(node: &'a Node, group: &str, key: &str) -> Option<&'a str> {
    node.get(group)?.get(key)?.text()
}

/// A number inside a group.
pub(super) fn number(node: &Node, group: &str, key: &str) -> Option<f64> {
    field(node, group, key)?
        .parse()
        .ok()
        .filter(|v: &f64| v.is_finite())
}

/// A whole number inside a group.
pub(super) fn whole(node: &Node, group: &str, key: &str) -> Option<u32> {
    field(node, group, key)?.parse().ok()
}

/// A length behind a key.
pub(super) fn length(node: &Node, key: &str) -> Option<Length> {
    Length::parse(node.get(key)?.text()?)
}
