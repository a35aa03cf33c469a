//! What a tagged PDF promises, checked on the frames before it is claimed (ISO 14289-1, as far as frames can tell).

use std::collections::{BTreeMap, BTreeSet};

use crate::page::pdf::frame::Role;
use crate::page::pdf::paginate::Document;

/// Promises that this document would break, in words; empty when all are kept.
pub(super) fn broken(document: &Document) -> Vec<String> {
    let mut faults = Vec::new();
    let nodes = &document.tree.nodes;
    let drawn: BTreeSet<usize> = document
        .pages
        .iter()
        .flat_map(|page| page.items.iter().filter_map(|item| item.node))
        .collect();
    let mut level = 0;
    for &at in &drawn {
        let Some(node) = nodes.get(at) else {
            faults.push(format!("content of a node {at} that is not there"));
            continue;
        };
        let this = match node.role {
            Role::H1 => 1,
            Role::H2 => 2,
            Role::H3 => 3,
            Role::Figure => {
                if node.alt.as_ref().is_none_or(|alt| alt.trim().is_empty()) {
                    faults.push("a figure without words".to_owned());
                }
                continue;
            }
            // Content needs a block of its own; these only hold blocks.
            Role::Document | Role::Table | Role::Row | Role::List | Role::ListItem => {
                faults.push(format!("content directly in {:?}", node.role));
                continue;
            }
            _ => continue,
        };
        if this > level + 1 {
            faults.push(format!(
                "a heading of level {this} after one of level {level}"
            ));
        }
        level = this;
    }
    let mut links = document.pages.iter().flat_map(|page| &page.links);
    if links.any(|link| !drawn.contains(&link.node)) {
        faults.push("a link without words".to_owned());
    }
    // A row with fewer cells than its table's head leaves a reader without a column.
    let mut cells = vec![0_usize; nodes.len()];
    for node in nodes.iter().skip(1) {
        cells[node.parent] += 1;
    }
    let mut heads: BTreeMap<usize, usize> = BTreeMap::new();
    for (row, node) in nodes
        .iter()
        .enumerate()
        .filter(|(_, n)| n.role == Role::Row)
    {
        let head = *heads.entry(node.parent).or_insert(cells[row]);
        if head != cells[row] {
            faults.push("a table whose rows differ in cells".to_owned());
        }
    }
    faults
}
