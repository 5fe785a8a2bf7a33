//! The ground, and how its values are taken.

use super::fields::Table;
use groundline::embedment::DepthCap;
use groundline::foundation::SquareWidth;
use groundline::ground::{Ground, LateralBearing, SoilClass};
use groundline::limit_state::AllowableStress;

/// What all posts share.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Basis {
    pub(super) ground: Ground,
    pub(super) combination: AllowableStress,
    pub(super) cap: DepthCap,
    pub(super) width: SquareWidth,
}

/// Reads `[options]` and `[soil]`.
pub(super) fn read(root: &Table<'_>) -> Option<Basis> {
    let options = root.table("options");
    let combinations = [
        ("basic", AllowableStress::Basic),
        (
            "alternative with one-third increase",
            AllowableStress::AlternativeWithIncrease,
        ),
    ];
    let combination = options.choice("combinations", &combinations, false);
    let caps = [
        ("depth", DepthCap::CapDepth),
        ("reading", DepthCap::CapReading),
    ];
    let cap = options.choice("twelve_foot_rule", &caps, false);
    let widths = [
        ("diagonal", SquareWidth::Diagonal),
        ("face", SquareWidth::Face),
    ];
    let width = options.choice("square_width", &widths, false);
    options.finish();

    let soil = root.table("soil");
    let ground = ground_of(&soil);
    soil.finish();
    let basis = Basis {
        ground: ground?,
        combination: combination?,
        cap: cap?,
        width: width?,
    };
    soil.take(
        "isolated_pole",
        basis.ground.lateral_increase(basis.combination),
    )?;
    Some(basis)
}

fn ground_of(soil: &Table<'_>) -> Option<Ground> {
    let classes = ["1", "2", "3", "4", "5"];
    let classes: Vec<_> = classes.into_iter().zip(SoilClass::ALL).collect();
    let isolated = soil.flag("isolated_pole");
    let top = soil.quantity_or("discount_top", "0 in");
    let ground = if soil.has("lateral_bearing") {
        if soil.has("class") {
            soil.refuse("class", "leave it out, or lateral_bearing: one of them");
        }
        let bearing = soil.quantity("lateral_bearing")?;
        let bearing = soil.take("lateral_bearing", LateralBearing::new(bearing))?;
        Ground::given(bearing)
    } else {
        if !soil.has("class") {
            soil.missing(
                "class",
                "give 1 to 5 (IBC Table 1806.2), or lateral_bearing",
            );
            return None;
        }
        Ground::presumptive(soil.choice("class", &classes, true)?)
    };
    let ground = if soil.has("vertical_pressure") {
        let pressure = soil.quantity("vertical_pressure")?;
        soil.take("vertical_pressure", ground.with_vertical_pressure(pressure))?
    } else {
        ground
    };
    let ground = if isolated? {
        ground.as_isolated_pole()
    } else {
        ground
    };
    soil.take("discount_top", ground.discounting_top(top?))
}
