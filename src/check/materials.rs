//! What a post takes: the hole, what fills it round the post, how many bags,
//! and what they weigh.

use super::PostDesign;
use crate::backfill::{Bag, Bags, Setting, annulus};
use crate::error::{Error, number_within, size_within};
use crate::source;
use crate::step::{Step, Worksheet};
use crate::units::{Force, Length, Measurable, Measure, Volume, inch, lb};

/// Quantities asked for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MaterialOptions {
    bag: Bag,
    waste: f64,
    base: Length,
}

impl MaterialOptions {
    /// In bags of concrete, or of gravel, or kits of foam with their free-rise
    /// yield ([`Bag::given`]); no waste, no gravel base.
    pub fn new(bag: Bag) -> Self {
        Self {
            bag,
            waste: 0.0,
            base: inch(0.0),
        }
    }

    /// With a share for waste.
    ///
    /// # Errors
    /// Outside 0 to 1.
    pub fn with_waste(self, waste: f64) -> Result<Self, Error> {
        Ok(Self {
            waste: number_within("waste", waste, 0.0, 1.0)?,
            ..self
        })
    }

    /// With a gravel base below the post, dug deeper by as much.
    ///
    /// # Errors
    /// Outside 0 to 36 in.
    pub fn with_base(self, base: Length) -> Result<Self, Error> {
        Ok(Self {
            base: size_within("gravel base", base, inch(0.0), inch(36.0))?,
            ..self
        })
    }

    /// The bag.
    pub const fn bag(&self) -> &Bag {
        &self.bag
    }
    /// The waste.
    pub const fn waste(&self) -> f64 {
        self.waste
    }
}

/// What one post takes.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Materials {
    /// What it is set in; none for a post of which no more is known.
    pub setting: Option<Setting>,
    /// The hole dug, its gravel base included.
    pub hole: Volume,
    /// The gravel base.
    pub base: Volume,
    /// Round the post.
    pub fill: Volume,
    /// Bags; none where what came out of the hole goes back, or there is none.
    pub bags: Option<Bags>,
    options: MaterialOptions,
}

impl Materials {
    /// For a design at a depth.
    ///
    /// # Errors
    /// Backfill in a hole that is not known; foam or gravel in bags of which only the
    /// yield of concrete is known; as [`annulus`] and [`Bag::count`].
    pub fn new(
        options: &MaterialOptions,
        design: &PostDesign,
        depth: Length,
    ) -> Result<Self, Error> {
        let setting = design.setting();
        let nothing = Volume::from_si(0.0);
        let none = Self {
            setting,
            hole: nothing,
            base: nothing,
            fill: nothing,
            bags: None,
            options: *options,
        };
        if setting == Some(Setting::Driven) {
            return Ok(none);
        }
        let hole = design.foundation().dug_hole().ok_or(Error::NotApplicable {
            field: "hole",
            reason: "quantities require a hole: give its shape and size",
        })?;
        let concrete = *options.bag.source() == source::BAG_YIELDS;
        if concrete
            && matches!(
                setting,
                Some(Setting::ExpandingFoam | Setting::CompactedGravel)
            )
        {
            return Err(Error::NotApplicable {
                field: "bag",
                reason: "the known yields are those of concrete: give the weight and the yield of a bag of this fill",
            });
        }
        let dug = depth + options.base;
        let fill = annulus(hole, design.foundation().outline(), dug, options.base)?;
        let bags = match setting {
            Some(Setting::TampedSoil) | None => None,
            Some(_) => Some(options.bag.count(fill, options.waste)?),
        };
        Ok(Self {
            hole: hole.volume(dug),
            base: hole.volume(options.base),
            fill,
            bags,
            ..none
        })
    }

    /// What the crew carries to this post.
    pub fn carry(&self) -> Force {
        self.bags.map_or(lb(0.0), |bags| bags.carry)
    }

    /// Writes the quantities.
    pub fn write(&self, sheet: &mut Worksheet) {
        sheet.section("Quantities");
        let volume = |symbol, meaning, volume| {
            Step::given(symbol, meaning, volume)
                .shown_as(Measure::Volume)
                .cite(&source::GEOMETRY)
        };
        sheet.push(volume("Vh", "hole, with its gravel base", self.hole));
        if self.base > Volume::default() {
            sheet.push(volume("Vb", "gravel base", self.base));
        }
        sheet.push(volume("Vf", "round the post", self.fill));
        if let Some(bags) = self.bags {
            let bag = self.options.bag();
            sheet.push(
                Step::computed_number("nb", "bags", "Vf/Y*(1 + wa)", bags.exact)
                    .with_as("Vf", self.fill, Measure::Volume)
                    .with_as("Y", bag.yields(), Measure::Volume)
                    .with_number("wa", self.options.waste())
                    .cite(bag.source()),
            );
            sheet.push(
                Step::computed("Wc", "to carry, whole bags", "nc*Wb", bags.carry)
                    .with_number("nc", bags.buy)
                    .with("Wb", bag.weight()),
            );
        } else {
            sheet.remark("Nothing to carry.");
        }
    }
}

/// What several posts take.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[non_exhaustive]
pub struct MaterialsSum {
    /// How many posts.
    pub posts: usize,
    /// How many more are left out, since their quantities are not known.
    pub left_out: usize,
    /// Their holes.
    pub hole: Volume,
    /// Their gravel bases.
    pub base: Volume,
    /// Round the posts.
    pub fill: Volume,
    /// Bags, waste included, not rounded.
    pub exact: f64,
    /// Whole bags a post, summed.
    pub bags: f64,
    /// What those weigh.
    pub carry: Force,
}

impl MaterialsSum {
    /// With one post more.
    #[must_use]
    pub fn with(mut self, post: Option<&Materials>) -> Self {
        let Some(post) = post else {
            self.left_out += 1;
            return self;
        };
        self.posts += 1;
        self.hole += post.hole;
        self.base += post.base;
        self.fill += post.fill;
        if let Some(bags) = post.bags {
            self.exact += bags.exact;
            self.bags += bags.buy;
            self.carry += bags.carry;
        }
        self
    }

    /// Whole bags where what is left of one is used at the next post; of one
    /// kind of bag.
    pub fn least_bags(&self) -> f64 {
        (self.exact - 1e-9).ceil().max(0.0)
    }
}
