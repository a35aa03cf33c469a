//! `measure -`: a line in, a line out, in the same order; a bad line costs one answer.

use serde_json::Value;

use crate::harness::{root, yokeward, yokeward_reading};

fn line(id: usize, rows: &[&str]) -> String {
    serde_json::json!({
        "id": format!("c{id}"),
        "worked": "round",
        "rows": rows.join("\n"),
        "colours": {".": "ground", "x": "motif"},
    })
    .to_string()
}

fn answers(out: &str) -> Vec<Value> {
    out.lines()
        .map(|l| serde_json::from_str(l).unwrap())
        .collect()
}

#[test]
fn answers_come_in_order_and_a_bad_line_costs_one() {
    let charts: [&[&str]; 3] = [
        &[".x", "x."],
        &["....x", ".xxx."],
        &["..xx..xx", "........"],
    ];
    let mut input = String::new();
    for i in 0..3000 {
        input.push_str(&if i % 500 == 250 {
            "{nonsense".to_owned()
        } else {
            line(i, charts[i % 3])
        });
        input.push('\n');
    }
    let (code, out, err) = yokeward_reading(&root(), &["measure", "-"], input);
    assert_eq!(code, 1);
    assert!(
        err.contains("2994 charts measured, 6 lines with faults"),
        "{err}"
    );
    let answers = answers(&out);
    assert_eq!(answers.len(), 3000);
    for (i, answer) in answers.iter().enumerate() {
        if i % 500 == 250 {
            assert_eq!(answer["line"], i + 1);
            assert_eq!(answer["error"]["code"], "broken-json");
        } else {
            assert_eq!(answer["id"], format!("c{i}"));
            assert!(answer.get("per_row").is_none());
        }
    }
}

#[test]
fn an_answer_equals_the_entry_of_the_chart_file() {
    let folder = tempfile::tempdir().unwrap();
    let rows = ["x....xx..", ".x..x..xx", "xxxxxxxxx", "..x......"];
    let file = format!(
        "title: It\ncolours: {{ \".\": ground, \"x\": motif }}\nrights: own\nworked: flat\nrepeat: {{ stitches: 2-8, rows: 1-3 }}\nrows: |\n  {}\n",
        rows.join("\n  ")
    );
    std::fs::write(folder.path().join("it.yaml"), file).unwrap();
    let arguments = ["measure", "it.yaml", "--json", "--gauge", "24"];
    let (code, out, err) = yokeward(folder.path(), &arguments);
    assert_eq!(code, 0, "{err}");
    let wanted: Value = serde_json::from_str(&out).unwrap();
    let input = serde_json::json!({
        "id": "it", "worked": "flat", "rows": rows.join("\n"), "gauge": 24,
        "colours": {".": "ground", "x": "motif"}, "repeat": {"stitches": "2-8", "rows": "1-3"},
    });
    let arguments = ["measure", "-", "--rows"];
    let (code, out, err) = yokeward_reading(folder.path(), &arguments, input.to_string());
    assert_eq!(code, 0, "{err}");
    let mut answer = answers(&out)[0].clone();
    let format = answer.as_object_mut().unwrap().remove("format").unwrap();
    assert_eq!(format, "yokeward/stream/1");
    assert_eq!(answer, wanted["charts"][0]);
}

#[test]
fn a_chart_of_more_than_a_million_cells_is_refused_and_not_swallowed() {
    let wide = "x".repeat(1001);
    let rows: Vec<&str> = std::iter::repeat_n(wide.as_str(), 1000).collect();
    let endless = format!("{{\"id\":\"long\",\"rows\":\"{}\"}}", "x".repeat(7 << 20));
    let input = [line(0, &[".x"]), line(1, &rows), endless, line(3, &["x."])].join("\n");
    let (code, out, _) = yokeward_reading(&root(), &["measure", "-"], input);
    assert_eq!(code, 1);
    let answers = answers(&out);
    assert_eq!(answers.len(), 4);
    assert_eq!(answers[0]["id"], "c0");
    assert_eq!(answers[1]["error"]["code"], "too-large");
    assert_eq!(answers[2]["error"]["code"], "too-large");
    assert_eq!(answers[2]["line"], 3);
    assert_eq!(answers[3]["id"], "c3");
}

#[test]
fn first_answers_come_before_the_stream_ends() {
    use std::io::{BufRead, BufReader, Write};
    let mut child = std::process::Command::new(env!("CARGO_BIN_EXE_yokeward"))
        .args(["measure", "-"])
        .stdin(std::process::Stdio::piped())
        .stdout(std::process::Stdio::piped())
        .spawn()
        .unwrap();
    let mut input = child.stdin.take().unwrap();
    let mut output = BufReader::new(child.stdout.take().unwrap());
    for i in 0..3 {
        writeln!(input, "{}", line(i, &[".x", "x."])).unwrap();
        input.flush().unwrap();
        let mut answer = String::new();
        output.read_line(&mut answer).unwrap();
        assert!(answer.contains(&format!("\"c{i}\"")), "{answer}");
    }
    drop(input);
    assert!(child.wait().unwrap().success());
}
