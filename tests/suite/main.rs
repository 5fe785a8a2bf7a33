//! The integration tests: one binary, a module a subject.

mod allocation;
mod architecture;
mod below_grade;
mod cubic;
mod embedment;
mod fence;
mod flags;
mod hostile;
mod post;
mod properties;
mod tables;
mod units;
mod vectors;
mod wind;
mod worksheet;
