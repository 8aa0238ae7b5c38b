//! The model in the free MPS format. That format knows minimising only, so the objective stands with its sign turned.

use super::names::{Names, one_line};
use crate::{Model, Sense};

/// The model as a free MPS file. `title` goes into a comment.
#[must_use]
pub fn mps(model: &Model, title: &str) -> String {
    let names = Names::new(model);
    let mut out = format!(
        "* {}\n* To be minimised: the objective is that of the program with its sign turned.\n\
         * Names in this file and what they stand for:\n",
        one_line(title)
    );
    for (name, column) in names.columns.iter().zip(&model.columns) {
        out += &format!("* {name} = {}\n", one_line(&column.name));
    }
    out += "NAME fardel\nROWS\n N obj\n";
    for (name, row) in names.rows.iter().zip(&model.rows) {
        out += &format!(" {} {name}\n", if row.sense == Sense::AtMost { 'L' } else { 'G' });
    }
    out += &columns(model, &names);
    out += "RHS\n";
    for (name, row) in names.rows.iter().zip(&model.rows).filter(|(_, row)| row.bound != 0.0) {
        out += &format!(" rhs {name} {}\n", row.bound);
    }
    out += "BOUNDS\n";
    for (name, column) in names.columns.iter().zip(&model.columns) {
        // Both are always said: readers differ in what they take for granted.
        out += &match column.lower {
            lower if lower.is_finite() => format!(" LO bnd {name} {lower}\n"),
            _ => format!(" MI bnd {name}\n"),
        };
        out += &match column.upper {
            upper if upper.is_finite() => format!(" UP bnd {name} {upper}\n"),
            _ => format!(" PL bnd {name}\n"),
        };
    }
    out + "ENDATA\n"
}

/// Coefficients by column, whole columns between markers.
fn columns(model: &Model, names: &Names) -> String {
    let mut by_column: Vec<Vec<(usize, f64)>> = vec![Vec::new(); model.columns.len()];
    for (row, terms) in model.rows.iter().map(|row| &row.terms).enumerate() {
        terms.iter().for_each(|(column, coefficient)| by_column[*column].push((row, *coefficient)));
    }
    let mut out = "COLUMNS\n".to_owned();
    let mut integer = false;
    for ((name, column), terms) in names.columns.iter().zip(&model.columns).zip(by_column) {
        if column.integer != integer {
            integer = column.integer;
            out += &marker(integer);
        }
        // A column that occurs nowhere is there all the same.
        if column.gain != 0.0 || terms.is_empty() {
            out += &format!(" {name} obj {}\n", if column.gain == 0.0 { 0.0 } else { -column.gain });
        }
        terms.iter().for_each(|(row, coefficient)| out += &format!(" {name} {} {coefficient}\n", names.rows[*row]));
    }
    if integer { out + &marker(false) } else { out }
}

fn marker(integer: bool) -> String {
    format!(" marker 'MARKER' {}\n", if integer { "'INTORG'" } else { "'INTEND'" })
}
