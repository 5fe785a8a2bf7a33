//! The integration tests: one binary, a module a subject.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::unreachable,
    clippy::float_cmp,
    clippy::too_many_lines,
    reason = "a test that cannot go on fails by panicking, and compares exact values exactly; a runner is a long match"
)]

mod allocation;
mod architecture;
mod asce7_walls;
mod asnzs1170;
mod backwards;
mod below_grade;
mod breakout;
mod codes;
mod combination;
mod cubic;
mod depth_chart;
mod edges_checks;
mod edges_depth;
mod edges_fence;
mod edges_field_test;
mod edges_ground;
mod edges_lateral;
mod edges_posts;
mod edges_pull_out;
mod edges_samples;
mod edges_springs;
mod edges_study;
mod edges_units;
mod edges_uplift;
mod edges_wind;
mod edges_wind_abroad;
#[cfg(feature = "serde")]
mod edges_wire_fields;
#[cfg(feature = "serde")]
mod edges_wire_plan;
#[cfg(feature = "serde")]
mod edges_wire_refused;
#[cfg(feature = "serde")]
mod edges_wire_words;
mod edges_words;
#[cfg(feature = "serde")]
mod embed;
mod embedment;
mod en1991;
mod error;
mod example_flags;
mod fence;
mod field_test;
mod field_test_inversion;
mod fuzz;
mod ground_and_foundation;
mod hostile;
mod lateral;
mod one_line;
mod open_fence;
mod post;
mod post_check;
mod post_kinds;
mod properties;
mod pull_test_example;
mod reference;
mod remedies;
#[cfg(feature = "serde")]
mod remedies_wire;
mod response_accuracy;
mod response_properties;
mod response_search;
mod samples;
mod samples_simulated;
mod schedule_asked;
mod schedule_browser;
mod schedule_example;
mod schedule_files;
mod schedule_kinds;
mod schedule_refusals;
mod schedule_refusals_asked;
mod sections;
mod sensitivity;
mod sensitivity_example;
mod side_by_side;
mod site_checks;
mod site_checks_kinds;
mod topography;
mod units;
mod uplift;
mod vectors;
mod wind;
#[cfg(feature = "serde")]
mod wire;
#[cfg(feature = "serde")]
mod wire_lateral;
mod worksheet;
mod worksheet_lateral;
mod worksheet_post;
mod worksheet_whole;
mod worksheet_wind;
