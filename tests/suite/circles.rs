//! No two files of the house lean on each other, directly or through others: whoever reads one from the ground up never
//! has to turn back. A `mod.rs` that only lists and passes on is looked through; one that holds code is a file like others.

use std::collections::{BTreeMap, BTreeSet};

use crate::tidy::sources;

/// Module path (`rows::walk`) of a source file.
fn module_of(path: &str) -> String {
    let path = path.trim_start_matches("src/").trim_end_matches(".rs");
    path.trim_end_matches("/mod").replace('/', "::")
}

/// Source without comments, its own tests, and the words that only widen what may be seen.
fn code_of(text: &str) -> String {
    let text = text.split("#[cfg(test)]").next().unwrap_or("");
    let lines = text.lines().map(|l| l.split("//").next().unwrap_or(""));
    lines
        .collect::<Vec<_>>()
        .join("\n")
        .replace("pub(in crate", "pub(in ")
}

/// All paths that follow `crate::`, groups taken apart.
fn named(code: &str) -> Vec<String> {
    let mut found = Vec::new();
    for (at, _) in code.match_indices("crate::") {
        let rest = &code[at + "crate::".len()..];
        let path: String = rest
            .chars()
            .take_while(|c| c.is_alphanumeric() || *c == '_' || *c == ':')
            .collect();
        let after = &rest[path.len()..];
        match after.strip_prefix('{') {
            Some(group) => {
                let inside = group.split('}').next().unwrap_or("");
                let names = inside.split(',').map(str::trim).filter(|n| !n.is_empty());
                found.extend(names.map(|name| match name {
                    "self" => path.trim_end_matches("::").to_owned(),
                    name => format!("{path}{name}"),
                }));
            }
            None => found.push(path),
        }
    }
    found
}

/// `use child::{A, B};` and the like: each name with the module that it is passed on from.
fn passed_on(module: &str, code: &str) -> Vec<((String, String), String)> {
    let mut found = Vec::new();
    for statement in code.split(';') {
        let Some((_, list)) = statement
            .split_once("use ")
            .filter(|(before, _)| before.contains("pub"))
        else {
            continue;
        };
        if list.trim_start().starts_with("crate::") {
            continue;
        }
        let Some((child, names)) = list.split_once("::") else {
            continue;
        };
        for name in names.trim_matches(['{', '}', ' ', '\n']).split(',') {
            let name = name.trim().trim_matches(['{', '}']).trim().to_owned();
            found.push((
                (module.to_owned(), name.clone()),
                format!("{module}::{}::{name}", child.trim()),
            ));
        }
    }
    found
}

/// Each file with the files that it names.
fn arrows(files: &[(String, String)]) -> BTreeMap<String, BTreeSet<String>> {
    let homes: BTreeMap<String, String> = files
        .iter()
        .map(|(path, _)| (module_of(path), path.clone()))
        .collect();
    let code: Vec<(&String, String)> = files.iter().map(|(p, t)| (p, code_of(t))).collect();
    let facades: BTreeMap<(String, String), String> = code
        .iter()
        .flat_map(|(path, code)| passed_on(&module_of(path), code))
        .collect();
    let resolve = |name: &str| -> Option<String> {
        let mut name = name.to_owned();
        for _ in 0..5 {
            let parts: Vec<&str> = name.split("::").collect();
            let deepest = (1..=parts.len())
                .rev()
                .find(|n| homes.contains_key(&parts[..*n].join("::")))?;
            let home = parts[..deepest].join("::");
            let next = parts
                .get(deepest)
                .and_then(|item| facades.get(&(home.clone(), (*item).to_owned())));
            match next {
                Some(next) => name.clone_from(next),
                None => return homes.get(&home).cloned(),
            }
        }
        None
    };
    let mut all = BTreeMap::new();
    for (path, code) in &code {
        let mut names = named(code);
        if path.ends_with("/mod.rs") {
            // What its own code calls of its children.
            let module = module_of(path);
            let own = code.split(';').filter(|statement| {
                let words = statement.trim_start();
                !words.starts_with("pub") && !words.starts_with("mod ")
            });
            for statement in own {
                for (at, _) in statement.match_indices("::") {
                    let child: String = statement[..at]
                        .chars()
                        .rev()
                        .take_while(|c| c.is_alphanumeric() || *c == '_')
                        .collect();
                    if statement[..at - child.len()].ends_with(':') {
                        continue;
                    }
                    let child: String = child.chars().rev().collect();
                    let child = format!("{module}::{child}");
                    if homes.contains_key(&child) {
                        names.push(child);
                    }
                }
            }
        }
        let to: BTreeSet<String> = names
            .iter()
            .filter_map(|name| resolve(name))
            .filter(|to| to != *path)
            .collect();
        all.insert((*path).clone(), to);
    }
    all
}

/// Files that lead back to themselves.
fn circles(files: &[(String, String)]) -> Vec<String> {
    let mut arrows = arrows(files);
    // Whoever names nobody that is left is in no circle; what stays when no more can go is.
    loop {
        let free: Vec<String> = arrows
            .iter()
            .filter(|(_, to)| to.iter().all(|other| !arrows.contains_key(other)))
            .map(|(path, _)| path.clone())
            .collect();
        if free.is_empty() {
            break;
        }
        arrows.retain(|path, _| !free.contains(path));
    }
    let left: BTreeSet<String> = arrows.keys().cloned().collect();
    arrows
        .into_iter()
        .map(|(path, to)| format!("{path} -> {:?}", to.intersection(&left).collect::<Vec<_>>()))
        .collect()
}

#[test]
fn no_files_lean_on_each_other() {
    let files: Vec<(String, String)> = sources("src")
        .into_iter()
        .filter(|(path, _)| !["src/lib.rs", "src/main.rs"].contains(&path.as_str()))
        .collect();
    assert!(files.len() > 200, "{} files", files.len());
    let arrows: usize = arrows(&files).values().map(BTreeSet::len).sum();
    assert!(arrows > 600, "{arrows} arrows are seen");
    let found = circles(&files);
    assert!(found.is_empty(), "{found:#?}");
}

#[test]
fn planted_circles_are_found() {
    let house = |files: &[(&str, &str)]| -> Vec<(String, String)> {
        let own = |(path, text): &(&str, &str)| ((*path).to_owned(), (*text).to_owned());
        files.iter().map(own).collect()
    };
    let clean = house(&[
        (
            "src/a/mod.rs",
            "mod b;\nmod c;\npub use b::{B, D};\npub use c::C;\n",
        ),
        ("src/a/b.rs", "pub struct B;\npub struct D;"),
        ("src/a/c.rs", "use crate::a::b::B;\npub struct C(B);"),
    ]);
    assert!(circles(&clean).is_empty(), "{:?}", circles(&clean));
    for (path, planted) in [
        // Straight, through a facade, in a group, in the middle of code.
        (
            "src/a/b.rs",
            "use crate::a::c::C;\npub struct B(C);\npub struct D;",
        ),
        ("src/a/b.rs", "use crate::a::C;\npub struct B(C);"),
        ("src/a/b.rs", "use crate::a::{C, D};\npub struct B(C);"),
        ("src/a/b.rs", "pub fn b() { crate::a::c::go() }"),
        // A facade with code of its own that its child needs.
        (
            "src/a/mod.rs",
            "mod b;\nmod c;\npub struct B;\nfn go() { c::go() }\npub use c::C;\n",
        ),
    ] {
        let mut files = clean.clone();
        for (known, text) in &mut files {
            if known == path {
                *text = planted.to_owned();
            }
            if path == "src/a/mod.rs" && known == "src/a/c.rs" {
                *text = "use crate::a::B;\npub struct C(B);".to_owned();
            }
        }
        assert!(!circles(&files).is_empty(), "{path}: {planted}");
    }
}
