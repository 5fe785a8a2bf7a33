//! What more is asked of every post: lean, frost, pull-out, weight with
//! bending, quantities.

use super::bags::{self, Fillings};
use super::fields::Table;
use groundline::backfill::Setting;
use groundline::check::{
    FrostOptions, FrostRemedy, Grip, GroundStiffness, LeanOptions, SideFriction, SiteChecks,
    UpliftOptions,
};
use groundline::post::{AxialOptions, CompressionValues};
use groundline::units::{
    Force, Length, Measurable, Measure, Pressure, Ratio, ft, kpa, lb, show, show_as,
};
use groundline::uplift::FrozenGround;

/// What is asked, and in words what goes in.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct Asked {
    /// All but quantities.
    checks: SiteChecks,
    fillings: Option<Fillings>,
    pub(crate) lean: bool,
    pub(crate) uplift: bool,
    pub(crate) axial: bool,
    /// The gravel base below a post, if quantities are asked for.
    pub(crate) base: Length,
    pub(crate) words: Vec<String>,
}

impl Asked {
    pub(crate) const fn materials(&self) -> bool {
        self.fillings.is_some()
    }

    pub(crate) const fn frost(&self) -> bool {
        self.checks.frost().is_some()
    }

    pub(crate) const fn anything(&self) -> bool {
        self.lean || self.frost() || self.uplift || self.axial || self.materials()
    }

    /// The frost depth, if frost is asked for.
    pub(crate) fn frost_depth(&self) -> Option<Length> {
        self.checks.frost().map(FrostOptions::depth)
    }

    /// What is asked of a post set in something.
    pub(crate) fn of(&self, setting: Option<Setting>) -> SiteChecks {
        let bags = self.fillings.and_then(|all| all.of(setting));
        match bags {
            Some(bags) => self.checks.with_materials(bags),
            None => self.checks,
        }
    }

    /// Tells of the bag that a setting wants and that is not given.
    pub(crate) fn want(&self, root: &Table<'_>, setting: Option<Setting>) {
        let (Some(setting), true) = (setting, self.materials()) else {
            return;
        };
        if self.of(Some(setting)).materials().is_none() {
            let (key, what) = match setting {
                Setting::ExpandingFoam => ("foam", "the kit of foam: bag and bag_yields"),
                Setting::CompactedGravel => ("gravel", "the bag of gravel: bag and bag_yields"),
                _ => ("bag", "the bag of concrete"),
            };
            let posts = format!("posts are set in {}; give {what}", setting.name());
            let table = root.table("materials");
            // One that was refused is told of already.
            if !table.has(key) {
                table.missing(key, &posts);
            }
        }
    }
}

/// Reads `[lean]`, `[frost]`, `[uplift]`, `[axial]`, `[materials]`.
pub(crate) fn read(root: &Table<'_>) -> Asked {
    let mut asked = Asked::default();
    let table = root.table("lean");
    if let Some(lean) = table.is_given().then(|| lean(&table, &mut asked)).flatten() {
        asked.checks = asked.checks.with_lean(lean);
        asked.lean = true;
    }
    let table = root.table("frost");
    if let Some(frost) = table
        .is_given()
        .then(|| frost(&table, &mut asked))
        .flatten()
    {
        asked.checks = asked.checks.with_frost(frost);
    }
    let table = root.table("uplift");
    if let Some(uplift) = table
        .is_given()
        .then(|| uplift(&table, &mut asked))
        .flatten()
    {
        asked.checks = asked.checks.with_uplift(uplift);
        asked.uplift = true;
    }
    let table = root.table("axial");
    if let Some(axial) = table
        .is_given()
        .then(|| axial(&table, &mut asked))
        .flatten()
    {
        asked.checks = asked.checks.with_axial(axial);
        asked.axial = true;
    }
    let table = root.table("materials");
    if table.is_given() {
        asked.fillings = bags::read(&table, &mut asked);
    }
    asked
}

/// Which of two fields that exclude each other is given, the first or not.
fn one_of(table: &Table<'_>, one: &'static str, other: &'static str) -> Option<bool> {
    match (table.has(one), table.has(other)) {
        (true, true) => {
            table.refuse(other, format!("leave it out, or {one}: one of them"));
            None
        }
        (first, second) => (first || second).then_some(first),
    }
}

fn lean(table: &Table<'_>, asked: &mut Asked) -> Option<LeanOptions> {
    let system = table.system();
    let ground = match one_of(table, "constant", "growing") {
        Some(true) => table.quantity("constant").and_then(|k| {
            let made = table.take("constant", GroundStiffness::constant(k))?;
            let said = format!("{} at every depth", show_as(k, Measure::Pressure, system));
            Some((made, said))
        }),
        Some(false) => table.quantity("growing").and_then(|nh| {
            let made = table.take("growing", GroundStiffness::growing(nh))?;
            Some((made, format!("growing by {} with depth", show(nh, system))))
        }),
        None => {
            if !table.has("constant") {
                table.missing("growing", "give the stiffness of the ground, or constant");
            }
            None
        }
    };
    let limit = table.quantity::<Ratio>("limit");
    let rigidity = table.has("rigidity");
    // Where the ground is refused, which stops the job, the rest is read all the
    // same, so that everything wrong is told at once. So below.
    let stand_in = GroundStiffness::constant(kpa(1_000.0)).ok();
    let counted = ground.as_ref().map(|(ground, _)| *ground).or(stand_in);
    let made = counted.as_ref().map(|ground| {
        let made = LeanOptions::new(*ground);
        let made = table.with("limit", made, |made, limit: Ratio| {
            made.with_limit(limit.si())
        });
        table.with("rigidity", made, LeanOptions::with_rigidity)
    });
    table.finish();
    let limit = limit.map_or(
        "no limit was given, so none is checked".to_owned(),
        |limit| format!("limit {} of the height, the user's", part(limit.si())),
    );
    let rigidity = if rigidity {
        "EI of every post as given"
    } else {
        "EI of each post as it is made"
    };
    asked.words.push(format!(
        "Lean of the top under the wind, allowable-stress level: ground of stiffness {}, the user's \
         (nobody has tested it); {rigidity}; {limit}. Elastic: what stays after a storm, and creep \
         of the ground, are not in it.",
        ground?.1
    ));
    made
}

/// A share as one part of so many.
pub(crate) fn part(share: f64) -> String {
    let parts = 1.0 / share;
    if share <= 0.0 {
        "0".to_owned()
    } else if (10.0..1e6).contains(&parts) {
        // Down, so that no lean is shown less than it is.
        format!("1/{:.0}", (parts + 1e-9).floor())
    } else if parts < 10.0 {
        format!("1/{:.1}", (10.0 * parts + 1e-9).floor() / 10.0)
    } else {
        "below 1/999999".to_owned()
    }
}

/// Friction on the side, and how it is said.
fn friction(table: &Table<'_>) -> Option<(SideFriction, String)> {
    let words = [
        ("none", 0),
        ("presumptive", 1),
        ("allowable", 2),
        ("tested", 3),
    ];
    let kind = table.choice("friction", &words, false)?;
    if kind < 2 {
        if table.has("friction_stress") {
            let reason = "it goes with friction = \"allowable\" or \"tested\"";
            table.refuse("friction_stress", reason);
        }
        return Some(if kind == 0 {
            (SideFriction::None, "no friction counted".to_owned())
        } else {
            let said = "presumptive friction (a sixth of the vertical bearing) where the setting \
                        may have it";
            (SideFriction::Presumptive, said.to_owned())
        });
    }
    let stress: Pressure = table.required("friction_stress")?;
    let shown = show(stress, table.system());
    Some(if kind == 2 {
        let said = format!("friction {shown} as given, where the setting may have it");
        (SideFriction::Allowable(stress), said)
    } else {
        let said = format!("friction {shown} of tests on site, as given");
        (SideFriction::Tested(stress), said)
    })
}

/// The weight of a post that is given.
fn own_weight(table: &Table<'_>) -> String {
    let weight = table.quantity::<Force>("post_weight");
    match weight.filter(|weight| *weight > lb(0.0)) {
        Some(weight) => format!("each post weighs {}", show(weight, table.system())),
        None => "posts taken as weightless".to_owned(),
    }
}

fn frost(table: &Table<'_>, asked: &mut Asked) -> Option<FrostOptions> {
    const GRIPS: [(&str, Grip); 4] = [
        ("fine-grained", Grip::FineGrained),
        (
            "fine-grained on wood or concrete",
            Grip::Of(FrozenGround::FineOnWoodOrConcrete),
        ),
        ("fine-grained on steel", Grip::Of(FrozenGround::FineOnSteel)),
        ("gravel on steel", Grip::Of(FrozenGround::GravelOnSteel)),
    ];
    let system = table.system();
    let depth: Option<Length> = table.required("depth");
    let (grip, said) = if table.has("stress") {
        if table.has("grip") {
            table.refuse("grip", "leave it out, or stress: one of them");
        }
        let stress = table.quantity("stress");
        let said = stress.map_or(String::new(), |stress| show(stress, system).to_string());
        (stress.map(Grip::Given), format!("{said} as given"))
    } else {
        let grip = table.choice("grip", &GRIPS, false);
        let word = GRIPS.iter().find(|(_, one)| Some(*one) == grip);
        let word = word.map_or("", |(word, _)| word);
        (grip, format!("that of wet ground, {word}, from tables"))
    };
    let remedies = [
        ("none", None),
        ("smooth sleeve", Some(FrostRemedy::SmoothSleeve)),
        ("drained gravel", Some(FrostRemedy::DrainedGravel)),
    ];
    let remedy = table.choice("remedy", &remedies, false).flatten();
    let friction = friction(table);
    let weight = own_weight(table);
    let made = depth.zip(grip).and_then(|(depth, grip)| {
        let given = [("adfreeze stress", "stress")];
        table.take_by("depth", &given, FrostOptions::new(depth, grip))
    });
    let stand_in = FrostOptions::new(ft(1.0), Grip::FineGrained).ok();
    let made = made.or(stand_in).map(|made| {
        let made = remedy.map_or(made, |remedy| made.with_remedy(remedy));
        let made = table.with("concrete_weight", made, FrostOptions::with_concrete);
        let made = table.with("post_weight", made, FrostOptions::with_post_weight);
        let counted = friction.as_ref().map(|(counted, _)| *counted);
        counted
            .and_then(|counted| table.take("friction_stress", made.with_friction(counted)))
            .unwrap_or(made)
    });
    table.finish();
    let grip = match remedy {
        Some(remedy) => format!("no grip: {}, taken as built", remedy.name()),
        None => format!("grip {said}"),
    };
    asked.words.push(format!(
        "Frost to {} below grade; {grip}; {weight}; {}. A post that ends in the frost fails, \
         whatever it weighs.",
        show_as(depth?, Measure::SectionLength, system),
        friction?.1
    ));
    made
}

fn uplift(table: &Table<'_>, asked: &mut Asked) -> Option<UpliftOptions> {
    let system = table.system();
    let force: Option<Force> = table.required("force");
    let friction = friction(table);
    let weight = own_weight(table);
    let wood = table.flag("wood_bond").unwrap_or_default();
    if wood && table.has("bond") {
        table.refuse("bond", "leave it out, or wood_bond: one of them");
    }
    let bond = if wood {
        "treated wood may slide in its concrete"
    } else if table.has("bond") {
        "a post may slide in what it is set in, by the bond given"
    } else {
        "a post sliding in what it is set in is not looked at"
    };
    let made = force.and_then(|force| table.take("force", UpliftOptions::new(force)));
    let stand_in = UpliftOptions::new(lb(1.0)).ok();
    let made = made.or(stand_in).map(|made| {
        let made = if wood { made.with_wood_bond() } else { made };
        let made = table.with("bond", made, UpliftOptions::with_bond);
        let made = table.with("concrete_weight", made, UpliftOptions::with_concrete);
        let made = table.with("post_weight", made, UpliftOptions::with_post_weight);
        let counted = friction.as_ref().map(|(counted, _)| *counted);
        counted
            .and_then(|counted| table.take("friction_stress", made.with_friction(counted)))
            .unwrap_or(made)
    });
    table.finish();
    asked.words.push(format!(
        "Pull-out: {} upwards on every post, allowable-stress level, the user's; {weight}; {}; \
         {bond}.",
        show(force?, system),
        friction?.1
    ));
    made
}

fn axial(table: &Table<'_>, asked: &mut Asked) -> Option<AxialOptions> {
    let made = AxialOptions::default();
    let factor = table.quantity_or::<Ratio>("length_factor", "2.1");
    let made = factor
        .and_then(|k| table.take("length_factor", made.with_length_factor(k.si())))
        .unwrap_or(made);
    let made = if table.has("fc") || table.has("emin") {
        let both = table.required("fc").zip(table.required("emin"));
        let values = both.and_then(|(fc, emin)| {
            let values = CompressionValues::new(fc, emin);
            table.take_by("fc", &[("Emin", "emin")], values)
        });
        values.map_or(made, |values| made.with_timber(values))
    } else {
        made
    };
    let made = table.with("capacity", made, AxialOptions::with_capacity);
    table.finish();
    asked.words.push(format!(
        "Weight of panels and leaves with bending, each post free at the top, K {:.2}: steel by \
         AISC 360 chapter H, timber by NDS 3.9.2 with the compression values given.",
        factor?.si()
    ));
    Some(made)
}
