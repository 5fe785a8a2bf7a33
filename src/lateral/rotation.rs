//! A rigid post that turns about a point in plastic ground: the statics that
//! Hansen and the rigid-plastic laws share.
//!
//! With P(z) the reaction from grade to z and Q(z) its moment about grade, the
//! pressure acts against the load above the rotation point x and with it below:
//!
//! - force at a height e: 2 A(x) = A(L), A = Q + e P; Hu = 2 P(x) − P(L);
//! - shear V at grade: P(x) = (P(L) + V)/2, Mu = Q(L) − 2 Q(x).
//!
//! Both left sides rise with x, so the root is bracketed by 0 and L.

use super::bracket::rising_root;
use super::{GreatestMoment, Mode, NeededDepth, Ultimate, deepest};
use crate::source::Citation;
use crate::step::{Step, Worksheet};
use crate::units::{Force, Length, Measurable, Torque};

/// A reaction along the depth: force and moment about grade, from grade to z.
pub(super) trait Reaction {
    fn cumulative(&self, z: f64) -> (f64, f64);
}

/// Rotation depth and ultimate force at a height.
pub(super) fn by_height(reaction: &impl Reaction, depth: f64, height: f64) -> (f64, f64) {
    let arm = |z: f64| {
        let (p, q) = reaction.cumulative(z);
        q + height * p
    };
    let whole = arm(depth);
    let x = rising_root(0.0, depth, |x| 2.0 * arm(x) - whole);
    let force = 2.0 * reaction.cumulative(x).0 - reaction.cumulative(depth).0;
    (x, force.max(0.0))
}

/// Rotation depth and ultimate moment at grade beside a shear; none where the
/// shear alone is too much.
pub(super) fn by_shear(reaction: &impl Reaction, depth: f64, shear: f64) -> Option<(f64, f64)> {
    let (p, q) = reaction.cumulative(depth);
    let half = 0.5 * (p + shear);
    // More shear than reaction turns it about its toe: no moment is left.
    let x = rising_root(0.0, depth, |x| reaction.cumulative(x).0 - half);
    let moment = q - 2.0 * reaction.cumulative(x).1;
    (moment >= 0.0).then_some((x, moment))
}

/// Where the shear is zero under a force at a height, and the moment there; the
/// depth itself where the reaction does not reach the force.
pub(super) fn greatest(
    reaction: &impl Reaction,
    depth: f64,
    force: f64,
    height: f64,
) -> GreatestMoment {
    let f = rising_root(0.0, depth, |z| reaction.cumulative(z).0 - force);
    let (p, q) = reaction.cumulative(f);
    // H (e + f) − ∫ p (f − z) dz.
    let moment = force * (height + f) - (p * f - q);
    GreatestMoment {
        depth: Length::from_si(f),
        moment: Torque::from_si(moment),
    }
}

/// The ultimate load of a depth, with a post that may yield below grade.
pub(super) fn ultimate(
    reaction: &impl Reaction,
    depth: f64,
    height: f64,
    yields_at: Option<f64>,
    source: &'static Citation,
) -> Ultimate {
    let (x, mut force) = by_height(reaction, depth, height);
    let mut rotation = Some(Length::from_si(x));
    let mut mode = Mode::Ground;
    let mut at = greatest(reaction, depth, force, height);
    if let Some(my) = yields_at
        && at.moment.value > my
    {
        force = rising_root(0.0, force, |h| {
            greatest(reaction, depth, h, height).moment.value - my
        });
        mode = Mode::PostBelow;
        rotation = None;
        at = greatest(reaction, depth, force, height);
    }
    Ultimate {
        shear: Force::from_si(force),
        moment: Torque::from_si(force * height),
        mode,
        zero_shear: at.depth,
        greatest_moment: at.moment,
        rotation,
        source,
    }
}

/// Writes the balance of an ultimate load.
pub(super) fn write(
    reaction: &impl Reaction,
    ultimate: &Ultimate,
    depth: Length,
    height: Length,
    sheet: &mut Worksheet,
) {
    let cite = |step: Step| step.cite(ultimate.source);
    let sums = |z: Length| {
        let (p, q) = reaction.cumulative(z.value);
        (Force::from_si(p), Torque::from_si(q))
    };
    sheet.remark(format!("Governs: {}.", ultimate.mode.name()));
    sheet.remark("P reaction from grade down, Q its moment about grade; x turns, f no shear.");
    if let Some(x) = ultimate.rotation {
        let ((px, qx), (pl, ql)) = (sums(x), sums(depth));
        let balance = Step::root(
            "x",
            "depth about which the post turns: moments balance about the load",
            "2*(Qx + e*Px) = QL + e*PL",
            x,
        );
        sheet.push(cite(
            balance
                .with("Qx", qx)
                .with("Px", px)
                .with("QL", ql)
                .with("PL", pl)
                .with("e", height),
        ));
        let force = Step::computed(
            "Hu",
            "ultimate force at the height e",
            "2*Px - PL",
            ultimate.shear,
        );
        sheet.push(cite(force.with("Px", px).with("PL", pl)));
    } else {
        sheet.push(cite(Step::given(
            "Hu",
            "force at the height e at which the post yields",
            ultimate.shear,
        )));
    }
    let f = ultimate.zero_shear;
    let (pf, qf) = sums(f);
    sheet.push(Step::given("f", "depth of zero shear", f));
    let moment = Step::computed(
        "Mmax",
        "greatest moment",
        "Hu*(e + f) - (Pf*f - Qf)",
        ultimate.greatest_moment,
    );
    sheet.push(cite(
        moment
            .with("Hu", ultimate.shear)
            .with("e", height)
            .with("f", f)
            .with("Pf", pf)
            .with("Qf", qf),
    ));
}

/// The least depth, not beyond `most`, whose ultimate force reaches a force.
pub(super) fn needed(
    reaction: &impl Reaction,
    most: f64,
    force: f64,
    height: f64,
    yields_at: Option<f64>,
) -> NeededDepth {
    let most = most.min(deepest().value);
    if let Some(my) = yields_at
        && greatest(reaction, most, force, height).moment.value > my
    {
        return NeededDepth::PostYields;
    }
    if by_height(reaction, most, height).1 < force {
        return NeededDepth::MoreThan(Length::from_si(most));
    }
    let depth = rising_root(0.0, most, |l| by_height(reaction, l, height).1 - force);
    NeededDepth::Depth(Length::from_si(depth))
}
