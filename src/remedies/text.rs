//! Remedies in words.

use super::{Change, Remedies, RemedyKind, TriedRange, WhyNot};
use crate::post::Post;
use crate::section::PostSection;
use crate::units::{Length, Measure, UnitSystem, show, show_as};

fn size(length: Length, system: UnitSystem) -> String {
    show_as(length, Measure::SectionLength, system).to_string()
}

/// A post by its section.
fn post_text(post: &Post, system: UnitSystem) -> String {
    let of = |length| size(length, system);
    match post.section() {
        PostSection::Square(square) => format!("timber {} square", of(square.side())),
        PostSection::Tube(tube) => {
            format!("pipe {} x {}", of(tube.diameter()), of(tube.wall()))
        }
        PostSection::SquareTube(tube) => {
            format!("square tube {} x {}", of(tube.side()), of(tube.wall()))
        }
        PostSection::Disc(disc) => format!("round post of {}", of(disc.diameter())),
    }
}

impl Change {
    /// Returns the change in words, in the units of a system.
    pub fn text(&self, system: UnitSystem) -> String {
        match self {
            Self::Depth(depth) => format!("dig to {}", size(*depth, system)),
            Self::HoleWidth(width) => format!("a hole {} wide", size(*width, system)),
            Self::LargerPost(post) => format!("a {}", post_text(post, system)),
            Self::Concrete(hole) => {
                format!("concrete in a hole {} wide", size(hole.size(), system))
            }
            Self::IsolatedPole => "lateral bearing doubled as for an isolated pole".to_owned(),
            Self::Paving => "rigid paving against the post at grade".to_owned(),
            Self::Spacing(spacing) => format!("posts at most {} apart", show(*spacing, system)),
            Self::Solidity(solidity) => {
                format!("infill at most {:.0} % solid", 100.0 * solidity.value)
            }
            Self::Height(height) => format!("a fence at most {} high", show(*height, system)),
        }
    }
}

impl TriedRange {
    /// Returns the range in words, in the units of a system.
    pub fn text(&self, kind: RemedyKind, system: UnitSystem) -> String {
        let of = |length| match kind {
            RemedyKind::Spacing | RemedyKind::Height => show(length, system).to_string(),
            _ => size(length, system),
        };
        match self {
            Self::Once => "tried once".to_owned(),
            Self::Lengths(from, to) if from == to => format!("tried {}", of(*from)),
            Self::Lengths(from, to) => format!("tried {} to {}", of(*from), of(*to)),
            Self::Ratios(from, to) => format!(
                "tried {:.0} to {:.0} %",
                100.0 * from.value,
                100.0 * to.value
            ),
            Self::Posts(count) => format!("tried {count} posts of the catalogue"),
        }
    }
}

impl WhyNot {
    /// Returns the reason in words, in the units of a system.
    pub fn text(&self, kind: RemedyKind, system: UnitSystem) -> String {
        match self {
            Self::StillFails {
                tried,
                post,
                governing,
                utilization,
            } => format!(
                "{governing} of post {post} still fails, utilization {utilization} ({})",
                tried.text(kind, system)
            ),
            Self::FailsAtAnyDepth {
                post,
                governing,
                utilization,
                ..
            } => {
                format!("{governing} of post {post} fails at any depth, utilization {utilization}")
            }
            Self::Refused(error) => format!("cannot be checked: {}", error.in_system(system)),
            Self::NotApplicable(reason) => (*reason).to_owned(),
        }
    }
}

impl Remedies {
    /// Returns the remedies, a line each, with their conditions; one line that nothing
    /// tried passes where there is none.
    pub fn lines(&self, system: UnitSystem) -> Vec<String> {
        if self.failing.is_empty() {
            return vec!["Every check passes; no change is needed.".to_owned()];
        }
        let mut lines: Vec<_> = self
            .found
            .iter()
            .map(|remedy| {
                let condition = remedy
                    .condition
                    .map_or(String::new(), |condition| format!(", {}", condition.text()));
                format!(
                    "{} ({} governs, utilization {}){condition}",
                    remedy.change.text(system),
                    remedy.governing,
                    remedy.utilization
                )
            })
            .collect();
        if lines.is_empty() {
            lines.push("no single change tried makes every check pass".to_owned());
        }
        lines
    }

    /// Returns the kinds that do not help, a line each, with the reason.
    pub fn other_lines(&self, system: UnitSystem) -> Vec<String> {
        let others = self.others.iter();
        others
            .map(|other| format!("{}: {}", other.kind, other.why.text(other.kind, system)))
            .collect()
    }
}
