//! The finder against its floors: the shipped weights on tunes that the fit has not seen.

use crate::stage::{Found, Stop};
use crate::{books, fit, place};
use std::collections::BTreeMap;
use std::path::Path;

/// Rows of the table, by way and then by column.
type Table = BTreeMap<String, BTreeMap<String, f64>>;

/// Asks the finder of the held-out part and compares with the floors of `tests/finding.json`, and
/// with what the book shows of it.
pub(crate) fn check() -> Found {
    let file = place::target().join("held-out.csv");
    let made = place::target().join("held-out");
    fit::call(&["held-out", &file.to_string_lossy(), &made.to_string_lossy()])?;
    let table = table(&std::fs::read_to_string(&file)?)?;
    let floors = books::json("tests/finding.json")?;
    let wanted = floors["floors"].as_array().map(Vec::as_slice).unwrap_or_default();
    if wanted.is_empty() {
        return Err(Stop::failed("tests/finding.json lists no floors"));
    }
    let mut faults = stale(&made)?;
    let mut told = Vec::new();
    for floor in wanted {
        let way = floor["way"].as_str().unwrap_or_default();
        let row = table
            .get(way)
            .ok_or_else(|| Stop::failed(format!("no row `{way}` for all books together")))?;
        let limits = floor["at_least"].as_object().into_iter().flatten().map(|l| (l, true));
        let limits = limits
            .chain(floor["at_most"].as_object().into_iter().flatten().map(|l| (l, false)))
            .collect::<Vec<_>>();
        if limits.is_empty() {
            return Err(Stop::failed(format!("tests/finding.json sets `{way}` no limits")));
        }
        for ((column, limit), least) in limits {
            let limit = limit.as_f64().unwrap_or(f64::NAN);
            let value = row.get(column).copied().unwrap_or(f64::NAN);
            let holds = if least { value >= limit } else { value <= limit };
            if !holds {
                let word = if least { "at least" } else { "at most" };
                faults.push(format!("{way}: {column} {value:.4}, {word} {limit} wanted"));
            }
        }
        let exact = row.get("exact").copied().unwrap_or(f64::NAN);
        told.push(format!("{way} {:.1} % as written", exact * 100.0));
    }
    for fault in &faults {
        println!("{fault}");
    }
    match faults.first() {
        Some(first) => Err(Stop::failed(first.clone())),
        None => Ok(told.join(", ")),
    }
}

/// Which files of the book hold other figures than those just made.
fn stale(made: &Path) -> Result<Vec<String>, Stop> {
    let mut faults = Vec::new();
    for name in ["held-out.md", "held-out.svg"] {
        let shown = format!("{}/{name}", fit::MADE);
        let there = std::fs::read_to_string(place::root().join(&shown)).unwrap_or_default();
        if there != std::fs::read_to_string(made.join(name))? {
            faults.push(format!("{shown} is not what the finder does; cargo xtask evaluate"));
        }
    }
    Ok(faults)
}

/// The rows over all books, from the text of the spreadsheet.
fn table(text: &str) -> Result<Table, Stop> {
    let mut lines = text.lines().map(|line| line.split(',').collect::<Vec<_>>());
    let head = lines.next().ok_or_else(|| Stop::failed("the table of the finder is empty"))?;
    let mut table = Table::new();
    for line in lines {
        let row: BTreeMap<&str, &str> = head.iter().copied().zip(line).collect();
        if row.get("book") == Some(&"all")
            && let Some(way) = row.get("way")
        {
            let number = |(name, value): (&&str, &&str)| {
                value.parse().ok().map(|number| ((*name).to_owned(), number))
            };
            table.insert((*way).to_owned(), row.iter().filter_map(number).collect());
        }
    }
    Ok(table)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_of_all_books_are_read() {
        let text = "part,book,way,tunes,exact\nheld out,one,notes alone,3,0.5\n\
                    held out,all,notes alone,9,0.75\n";
        let table = table(text).expect("a table");
        assert_eq!(table.len(), 1);
        assert_eq!(table["notes alone"]["exact"], 0.75);
        assert_eq!(table["notes alone"].get("book"), None);
    }
}
