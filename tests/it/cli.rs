//! Commands, files and exit codes.
