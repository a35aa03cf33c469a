//! Colour roles that charts and bands name, and those a lesson gives yarns to: a slip in one of them is told where it is,
//! not at every band that goes without.

use crate::ground::fault::{Code, Fault, Span, nearest};
use crate::read::lesson_file::Reader;
use crate::read::node::Node;

/// The role that plain bands have without a word.
const UNSAID: &str = "ground";

impl Reader<'_> {
    /// Tells of a role with a yarn that nothing uses and that is near one without a yarn, and reads it as that one.
    pub(super) fn mend_roles(&mut self) {
        let named = self.named_roles();
        let is_named = |role: &str| role == UNSAID || named.iter().any(|(name, _)| name == role);
        let mut told: Vec<(String, String)> = Vec::new();
        for (role, place) in &named {
            let known = self.yarns.iter().any(|yarn| yarn.role == *role);
            if known || told.iter().any(|(_, meant)| meant == role) {
                continue;
            }
            let spare = self.yarns.iter().map(|yarn| yarn.role.as_str());
            let spare = spare.filter(|spare| !is_named(spare));
            let spare = spare.filter(|spare| !told.iter().any(|(slip, _)| slip == spare));
            let Some(slip) = nearest(role, spare).map(str::to_owned) else {
                continue;
            };
            let at = self.yarns.iter().find(|yarn| yarn.role == slip);
            let Some(at) = at.map(|yarn| yarn.place) else {
                continue;
            };
            let title = format!("nothing in this lesson uses `{slip}`, and `{role}` has no yarn");
            let fault = Fault::new(Code::UnknownColour, title, at, "not used");
            let fault = fault.also(*place, format!("`{role}` is named here"));
            self.faults
                .push(fault.help(format!("did you mean `{role}`?")));
            told.push((slip, role.clone()));
        }
        for yarn in &mut self.yarns {
            if let Some((_, meant)) = told.iter().find(|(slip, _)| *slip == yarn.role) {
                yarn.role.clone_from(meant);
            }
        }
    }

    /// Every role that a band or a chart in it names, where it is named first.
    fn named_roles(&self) -> Vec<(String, Span)> {
        let mut named: Vec<(String, Span)> = Vec::new();
        let mut name = |role: &str, place: Span| {
            if !named.iter().any(|(known, _)| known == role) {
                named.push((role.to_owned(), place));
            }
        };
        let mut of = |what: &Node, own: Option<&Node>| {
            let texts = |node: Option<&Node>| -> Vec<(String, Span)> {
                let entries = node.map(Node::entries).unwrap_or_default().iter();
                let texts = entries.filter_map(|(_, v)| Some((v.text()?.to_owned(), v.span)));
                texts.collect()
            };
            for (role, place) in texts(own.and_then(|own| own.get("colours"))) {
                name(&role, place);
            }
            let rows = own.and_then(|own| own.get("rows")).map(Node::entries);
            for (_, roles) in rows.unwrap_or_default() {
                for (role, place) in texts(Some(roles)) {
                    name(&role, place);
                }
            }
            let chart = what.text().and_then(|id| self.known.charts.get(id));
            let Some(chart) = chart else { return };
            for (i, ink) in chart.inks.iter().enumerate() {
                let given = own.and_then(|own| own.get("colours")?.get(&ink.role));
                if given.is_none() {
                    name(
                        &ink.role,
                        chart.ink_places.get(i).copied().unwrap_or(what.span),
                    );
                }
            }
        };
        let bands = self.node.get("bands").map(Node::items).unwrap_or_default();
        let parts = |band| {
            Node::get(band, "across")
                .map(Node::items)
                .unwrap_or_default()
        };
        for band in bands
            .iter()
            .flat_map(|band| std::iter::once(band).chain(parts(band)))
        {
            match band.get("chart") {
                Some(id) if id.text().is_some() => of(id, Some(band)),
                Some(group) => {
                    if let Some(id) = group.get("id") {
                        of(id, Some(group));
                    }
                }
                None => {}
            }
        }
        for band in bands
            .iter()
            .flat_map(|band| std::iter::once(band).chain(parts(band)))
        {
            let groups = [Some(band), band.get("plain"), band.get("rib")];
            for colour in groups
                .into_iter()
                .flatten()
                .filter_map(|group| group.get("colour"))
            {
                if let Some(role) = colour.text() {
                    name(role, colour.span);
                }
            }
        }
        named
    }
}
