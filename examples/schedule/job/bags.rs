//! The bags of quantities: of each filling its own, since a bag of concrete is
//! no bag of gravel.

use super::asked::Asked;
use super::fields::Table;
use groundline::backfill::{Bag, Setting};
use groundline::check::MaterialOptions;
use groundline::units::{Force, Length, Measurable, Measure, Ratio, UnitSystem, lb, show, show_as};

/// The bags of each filling.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Fillings {
    concrete: Option<MaterialOptions>,
    foam: Option<MaterialOptions>,
    gravel: Option<MaterialOptions>,
    /// Of what wants no bags.
    none: MaterialOptions,
}

impl Fillings {
    /// Those of a setting, if they were given.
    pub(super) fn of(self, setting: Option<Setting>) -> Option<MaterialOptions> {
        match setting {
            Some(Setting::PouredConcrete) => self.concrete,
            Some(Setting::ExpandingFoam) => self.foam,
            Some(Setting::CompactedGravel) => self.gravel,
            _ => Some(self.none),
        }
    }
}

/// Reads `[materials]`.
pub(super) fn read(table: &Table<'_>, asked: &mut Asked) -> Option<Fillings> {
    let base = table.quantity_or::<Length>("base", "0 in");
    let _ = table.quantity_or::<Ratio>("waste", "0");
    // Read once without a bag, so that everything wrong is told at once.
    let none = table.with(
        "base",
        MaterialOptions::new(Bag::lb_80()),
        MaterialOptions::with_base,
    );
    let _ = table.with("waste", none, |made, waste: Ratio| {
        made.with_waste(waste.si())
    });
    let mut said = Vec::new();
    let mut filling = |name: &str, table: &Table<'_>, packaged: bool| {
        let (bag, shown) = bag(table, packaged)?;
        let waste = table.quantity_or::<Ratio>("waste", "0")?;
        let share = (1e5 * waste.si()).round() / 1e3;
        said.push(format!("{name} in {shown}, {share} % more for waste"));
        let made = table.with("waste", MaterialOptions::new(bag), |made, waste: Ratio| {
            made.with_waste(waste.si())
        });
        Some(table.with("base", made, MaterialOptions::with_base))
    };
    let concrete = (table.has("bag") || table.has("bag_yields"))
        .then(|| filling("concrete", table, true))
        .flatten();
    let mut other = |key: &'static str| {
        let own = table.table(key);
        own.is_given()
            .then(|| {
                let own = own.falling_back_on(table, &["waste", "base"]);
                let made = filling(key, &own, false);
                own.finish();
                made
            })
            .flatten()
    };
    let (foam, gravel) = (other("foam"), other("gravel"));
    table.finish();
    let base_said = if base? > Length::default() {
        let base = show_as(base?, Measure::SectionLength, table.system());
        format!("each hole dug {base} deeper for a gravel base; ")
    } else {
        String::new()
    };
    asked.base = base?;
    asked.words.push(format!(
        "Quantities, to the depth as planned or dug: {}; {base_said}whole bags a post.",
        said.join("; ")
    ));
    Some(Fillings {
        concrete,
        foam,
        gravel,
        none,
    })
}

/// A bag, and how it is said; of packaged concrete some are known.
fn bag(table: &Table<'_>, packaged: bool) -> Option<(Bag, String)> {
    let system: UnitSystem = table.system();
    let weight: Force = table.required("bag")?;
    let made = if table.has("bag_yields") || !packaged {
        let made = Bag::given(weight, table.required("bag_yields")?);
        table.take_by("bag", &[("yield of a bag", "bag_yields")], made)
    } else {
        let known = [Bag::lb_40(), Bag::lb_50(), Bag::lb_60(), Bag::lb_80()];
        let found = known
            .into_iter()
            .find(|bag| (bag.weight() - weight).abs() < lb(0.01));
        if found.is_none() {
            table.refuse(
                "bag",
                "40, 50, 60 and 80 lb are known; of another give bag_yields too",
            );
        }
        found
    }?;
    let yields = show_as(made.yields(), Measure::Volume, system).significant(3);
    Some((
        made,
        format!("bags of {} that yield {yields}", show(weight, system)),
    ))
}
