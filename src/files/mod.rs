//! Files: reading them as named texts, writing them whole or not at all.

pub mod growing;
pub mod read;
pub mod stop;
pub mod temp_files;
pub mod write;
