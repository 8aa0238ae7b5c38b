//! What several benchmarks measure with.

/// Resident memory of a process at its peak in megabytes, where the system tells; `process` is its number, or `self`.
pub fn peak_memory(process: &str) -> Option<f64> {
    let status = std::fs::read_to_string(format!("/proc/{process}/status")).ok()?;
    let line = status.lines().find(|line| line.starts_with("VmHWM:"))?;
    let kilobytes: f64 = line.split_whitespace().nth(1)?.parse().ok()?;
    Some(kilobytes / 1024.0)
}
