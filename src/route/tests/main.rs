//! Whole runs on an invented map, built here.
