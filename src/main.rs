//! The program: arguments in, exit status out.

use std::process::ExitCode;

fn main() -> ExitCode {
    ExitCode::from(fardel::cli::run(std::env::args_os()).code())
}
