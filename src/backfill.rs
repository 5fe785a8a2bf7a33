//! What a post is set in: what may be counted on for each, and how much of it
//! to carry.
//!
//! | set in | b of the ground formulas | pushes back | friction and bond without a test |
//! |---|---|---|---|
//! | poured concrete | the hole | undisturbed soil | yes |
//! | expanding foam | the post | the foam, if tested | none |
//! | compacted gravel | the post | the gravel | none |
//! | tamped native soil | the post | the tamped soil | none |
//! | driven | the post | undisturbed soil | yes |
//!
//! Undisturbed-soil values hold only where the side of the hole bears: concrete,
//! or backfill compacted as IBC 1807.3.3 says. Rammed posts held a tenth of
//! driven ones in pulls of the New Zealand wire industry (quoted). Foam in the
//! ground has no independent strength data; heterogeneous, weaker and less
//! permeable than assumed (Mechanics of Materials 2008, abstract, published).

use crate::caution::{Caution, Cautions};
use crate::error::{Error, number_within, size_within, within};
use crate::foundation::{Hole, HoleShape};
use crate::section::PostSection;
use crate::source::{self, Citation};
use crate::units::{Force, Length, Volume, cu_ft, inch, lb};

/// What a post is set in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Setting {
    /// Concrete poured against the side of the hole.
    PouredConcrete,
    /// Two-part foam.
    ExpandingFoam,
    /// Crushed stone, compacted.
    CompactedGravel,
    /// What came out of the hole, tamped.
    TampedSoil,
    /// Driven, no hole.
    Driven,
}

impl Setting {
    /// All of them.
    pub const ALL: [Self; 5] = [
        Self::PouredConcrete,
        Self::ExpandingFoam,
        Self::CompactedGravel,
        Self::TampedSoil,
        Self::Driven,
    ];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::PouredConcrete => "poured concrete",
            Self::ExpandingFoam => "expanding foam",
            Self::CompactedGravel => "compacted gravel",
            Self::TampedSoil => "tamped soil",
            Self::Driven => "driven",
        }
    }

    /// Does undisturbed soil push back, rather than what fills the hole?
    pub const fn bears_on_undisturbed_soil(self) -> bool {
        matches!(self, Self::PouredConcrete | Self::Driven)
    }

    /// May friction and bond be counted without a test?
    pub const fn credits_friction(self) -> bool {
        self.bears_on_undisturbed_soil()
    }

    /// The cautions that go with it. `rested` says whether the load waits for
    /// it to set.
    pub fn cautions(self, rested: bool) -> Cautions {
        Cautions::default()
            .with(Caution::BuriedUtilities)
            .with_if(
                !rested && matches!(self, Self::PouredConcrete | Self::ExpandingFoam),
                Caution::Curing,
            )
            .with_if(
                matches!(self, Self::CompactedGravel | Self::TampedSoil),
                Caution::Backfill,
            )
            .with_if(self == Self::ExpandingFoam, Caution::Foam)
            .with_if(
                matches!(
                    self,
                    Self::ExpandingFoam | Self::CompactedGravel | Self::TampedSoil
                ),
                Caution::BackfillRing,
            )
    }
}

/// A time in days: how long a setting rests before it is loaded, or needs to.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct RestDays(f64);

impl RestDays {
    /// Days.
    ///
    /// # Errors
    /// Outside 0 to 1 000.
    pub fn new(days: f64) -> Result<Self, Error> {
        number_within("days of rest", days, 0.0, 1_000.0).map(Self)
    }

    /// Days.
    pub const fn days(self) -> f64 {
        self.0
    }
}

/// The volume of what fills a hole round a post: (area of the hole − area of the
/// post) times (depth − base), above a gravel base that is no part of the
/// embedment.
///
/// # Errors
/// Depth outside 1 in to 300 ft, base outside 0 to half an inch less than the
/// depth; a post that does not fit the hole.
///
/// ```
/// use groundline::{backfill::annulus, foundation::Hole, section::*, units::*};
/// let post = PostSection::Square(Square::new(inch(3.5))?);
/// let volume = annulus(&Hole::round(inch(10.0))?, &post, inch(30.0), inch(0.0))?;
/// assert!((volume.to(cu_ft) - 1.15086).abs() < 1e-5);
/// # Ok::<(), groundline::Error>(())
/// ```
pub fn annulus(
    hole: &Hole,
    post: &PostSection,
    depth: Length,
    base: Length,
) -> Result<Volume, Error> {
    let depth = size_within("depth", depth, inch(1.0), inch(3_600.0))?;
    let base = size_within("gravel base", base, inch(0.0), depth - inch(0.5))?;
    let ring = hole.area() - post.gross_area();
    let across = match hole.shape() {
        HoleShape::Round => post.bearing_width(),
        HoleShape::Square => post.face_width(),
    };
    if across >= hole.size() {
        return Err(Error::NotApplicable {
            field: "hole",
            reason: "the post does not fit into it",
        });
    }
    Ok(ring * (depth - base))
}

/// A bag of dry mix: its weight and what it yields.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bag {
    weight: Force,
    yields: Volume,
    source: &'static Citation,
}

impl Bag {
    fn packaged(pounds: f64, cubic_feet: f64) -> Self {
        Self {
            weight: lb(pounds),
            yields: cu_ft(cubic_feet),
            source: &source::BAG_YIELDS,
        }
    }

    /// 40 lb, 0.30 ft³ (quoted).
    pub fn lb_40() -> Self {
        Self::packaged(40.0, 0.30)
    }
    /// 50 lb, 0.375 ft³ (derived from the others).
    pub fn lb_50() -> Self {
        Self::packaged(50.0, 0.375)
    }
    /// 60 lb, 0.45 ft³ (quoted).
    pub fn lb_60() -> Self {
        Self::packaged(60.0, 0.45)
    }
    /// 80 lb, 0.60 ft³ (quoted).
    pub fn lb_80() -> Self {
        Self::packaged(80.0, 0.60)
    }

    /// Another bag, or a kit of foam with its free-rise yield: foam that is
    /// confined yields less.
    ///
    /// # Errors
    /// Weight outside 0.1 to 5 000 lb, yield outside 0.001 to 100 ft³.
    pub fn given(weight: Force, yields: Volume) -> Result<Self, Error> {
        Ok(Self {
            weight: within("weight of a bag", weight, lb(0.1), lb(5_000.0))?,
            yields: within("yield of a bag", yields, cu_ft(0.001), cu_ft(100.0))?,
            source: &source::GIVEN,
        })
    }

    /// Its weight.
    pub const fn weight(&self) -> Force {
        self.weight
    }
    /// What it yields.
    pub const fn yields(&self) -> Volume {
        self.yields
    }
    /// Where that comes from.
    pub const fn source(&self) -> &'static Citation {
        self.source
    }

    /// How many a volume takes, with a waste allowance (0.05 to 0.10 is told in
    /// the trade).
    ///
    /// # Errors
    /// Volume outside 0 to 10 million ft³, waste outside 0 to 1.
    pub fn count(&self, volume: Volume, waste: f64) -> Result<Bags, Error> {
        let volume = within("volume", volume, cu_ft(0.0), cu_ft(1e7))?;
        let waste = number_within("waste", waste, 0.0, 1.0)?;
        let exact = (volume / self.yields).value * (1.0 + waste);
        // A hair over a whole number of bags is that number.
        let buy = (exact - 1e-9).ceil().max(0.0);
        Ok(Bags {
            exact,
            buy,
            carry: self.weight * buy,
        })
    }
}

/// Bags for a volume.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Bags {
    /// As computed, waste included.
    pub exact: f64,
    /// Whole ones to buy.
    pub buy: f64,
    /// What they weigh: what the crew carries.
    pub carry: Force,
}
