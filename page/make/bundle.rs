//! Bundle of the page's modules: one script, each module within a function of its own, those that it imports before it.
//!
//! A file opened from disk may import no other, so the modules are put together here. They import by name, each on a line of
//! its own, and export functions, classes and constants where they are declared.

use std::error::Error;
use std::fmt::Write;
use std::fs;
use std::path::Path;

/// The modules that `first` needs, and itself, as one script.
pub fn bundle(folder: &Path, first: &str) -> Result<String, Box<dyn Error>> {
    let mut modules =
        Modules { folder, done: Vec::new(), under_way: Vec::new(), script: "\"use strict\";\n".to_owned() };
    modules.add(first)?;
    Ok(modules.script)
}

struct Modules<'a> {
    folder: &'a Path,
    done: Vec<String>,
    under_way: Vec<String>,
    script: String,
}

impl Modules<'_> {
    fn add(&mut self, file: &str) -> Result<(), Box<dyn Error>> {
        if self.done.iter().any(|known| known == file) {
            return Ok(());
        }
        if self.under_way.iter().any(|known| known == file) {
            return Err(format!("{file} needs itself, by way of {}", self.under_way.join(" and ")).into());
        }
        self.under_way.push(file.to_owned());
        let text = fs::read_to_string(self.folder.join(file)).map_err(|error| format!("{file}: {error}"))?;
        let mut body = String::new();
        let mut exports: Vec<&str> = Vec::new();
        for line in text.lines() {
            if let Some(rest) = line.strip_prefix("import ") {
                let (names, from) = imported(rest).ok_or_else(|| format!("{file}: not understood: {line}"))?;
                self.add(from)?;
                writeln!(body, "const {names} = {};", name_of(from))?;
            } else if let Some(rest) = line.strip_prefix("export ") {
                exports.push(exported(rest).ok_or_else(|| format!("{file}: not understood: {line}"))?);
                writeln!(body, "{rest}")?;
            } else if !line.trim_start().starts_with("//") {
                writeln!(body, "{line}")?;
            }
        }
        writeln!(
            self.script,
            "const {} = (() => {{\n{body}return {{ {} }};\n}})();",
            name_of(file),
            exports.join(", ")
        )?;
        self.under_way.pop();
        self.done.push(file.to_owned());
        Ok(())
    }
}

/// `{ a, b } from "./c.js";` as the names and the file.
fn imported(rest: &str) -> Option<(&str, &str)> {
    let (names, from) = rest.split_once(" from ")?;
    Some((names, from.strip_prefix("\"./")?.strip_suffix("\";")?))
}

/// The name that `function name(…` and the like declare.
fn exported(rest: &str) -> Option<&str> {
    let kinds = ["async function ", "function ", "class ", "const "];
    let named = kinds.iter().find_map(|kind| rest.strip_prefix(kind))?;
    named.split(|c: char| !(c.is_alphanumeric() || c == '_')).next().filter(|name| !name.is_empty())
}

fn name_of(file: &str) -> String {
    format!("of_{}", file.trim_end_matches(".js"))
}
