//! What to buy and carry for a post, on the wire.

use super::reading::{Path, Problems};
use super::record::{names, records};
use super::request::{Asked, Calculation, Done};
use super::value::Size;
use crate::backfill::{Bag, Setting, annulus};
use crate::error::Error;
use crate::units::{Force, Volume, ft, lb};

names! {
    Setting {
        "poured_concrete" => Setting::PouredConcrete,
        "expanding_foam" => Setting::ExpandingFoam,
        "compacted_gravel" => Setting::CompactedGravel,
        "tamped_soil" => Setting::TampedSoil,
        "driven" => Setting::Driven,
    }
}

records! {
    /// A bag of dry mix, or a two-part kit.
    BagSpec {
        /// Weight; 40, 50, 60 and 80 lb yield as packaged unless said.
        weight: Force,
        /// What it yields; needed for any other weight, and for all that is not
        /// concrete.
        yields: Option<Volume>,
    }
    /// What to buy and carry for a post.
    MaterialsRequest {
        /// What it is set in.
        setting: Setting,
        /// The hole.
        hole: super::design::HoleSpec,
        /// The section of the post.
        section: super::post::SectionSpec,
        /// Depth.
        depth: Size,
        /// Gravel base; none unless said.
        base: Option<Size>,
        /// Bag or kit.
        bag: Option<BagSpec>,
        /// Waste as a share; none unless said.
        waste: Option<f64>,
        /// How many posts; one unless said.
        posts: Option<usize>,
        /// Has what it is set in rested before it is loaded?
        rested: Option<bool>,
    }
    /// What to buy and carry.
    MaterialsResult {
        /// Dug, a post.
        hole: Volume,
        /// To fill, a post.
        fill: Volume,
        /// Bags a post, exact.
        bags_exact: Option<f64>,
        /// Bags to buy a post, each hole filled from whole bags.
        bags: Option<f64>,
        /// To carry a post.
        carry: Option<Force>,
        /// Bags to buy for all posts, shared between holes.
        bags_in_all: Option<f64>,
        /// To carry for all posts.
        carry_in_all: Option<Force>,
    }
}

impl BagSpec {
    pub(super) fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Bag> {
        let known = [Bag::lb_40(), Bag::lb_50(), Bag::lb_60(), Bag::lb_80()];
        let made = match self.yields {
            Some(yields) => Bag::given(self.weight, yields),
            None => known
                .into_iter()
                .find(|bag| (bag.weight() - self.weight).abs() < lb(0.01))
                .ok_or(Error::NotApplicable {
                    field: "weight of a bag",
                    reason: "40, 50, 60 and 80 lb are known; else give what it yields",
                }),
        };
        problems.take(at, made)
    }
}

impl MaterialsRequest {
    fn build(
        &self,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<(Volume, Volume, Option<Bag>)> {
        let hole = self.hole.build(&at.field("hole"), problems);
        let section = self.section.build(&at.field("section"), problems);
        let bag = match &self.bag {
            Some(spec) => spec.build(&at.field("bag"), problems).map(Some),
            None => Some(None),
        };
        let base = self.base.map_or(ft(0.0), |base| base.0);
        let refuse = match self.setting {
            Setting::Driven => Some(("setting", "a driven post has no hole to fill")),
            Setting::TampedSoil if self.bag.is_some() => Some((
                "bag",
                "what came out of the hole goes back: it takes no bags",
            )),
            Setting::ExpandingFoam | Setting::CompactedGravel
                if self.bag.as_ref().is_some_and(|bag| bag.yields.is_none()) =>
            {
                Some(("bag", "known yields are of concrete: give what this yields"))
            }
            _ => None,
        };
        if let Some((name, allowed)) = refuse {
            problems.add(&at.field(name), None, allowed);
        }
        if self.posts == Some(0) {
            problems.add(&at.field("posts"), None, "give 1 or more");
        }
        if let Some(waste) = self.waste {
            let made = crate::error::number_within("waste", waste, 0.0, 1.0);
            problems.take(&at.field("waste"), made)?;
        }
        if refuse.is_some() || self.posts == Some(0) {
            return None;
        }
        let (hole, section) = (hole?, section?);
        let made = annulus(&hole, &section, self.depth.0, base);
        let names = [
            ("depth", "depth"),
            ("gravel base", "base"),
            ("hole", "hole"),
        ];
        let fill = problems.take_by(at, &names, made)?;
        Some((hole.volume(self.depth.0), fill, bag?))
    }
}

impl Calculation for MaterialsRequest {
    const CALCULATE: &'static str = "materials";
    type Result = MaterialsResult;

    fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
        self.build(at, problems);
    }

    #[expect(
        clippy::cast_precision_loss,
        reason = "a count of posts, at most a million"
    )]
    fn run(
        &self,
        _: Asked,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<MaterialsResult>> {
        let (hole, fill, bag) = self.build(at, problems)?;
        let waste = self.waste.unwrap_or(0.0);
        let posts = self.posts.unwrap_or(1) as f64;
        let place = at.field("waste");
        let (one, all) = match &bag {
            Some(bag) => (
                Some(problems.take(&place, bag.count(fill, waste))?),
                Some(problems.take(&place, bag.count(fill * posts, waste))?),
            ),
            None => (None, None),
        };
        let result = MaterialsResult {
            hole,
            fill,
            bags_exact: one.map(|bags| bags.exact),
            bags: one.map(|bags| bags.buy),
            carry: one.map(|bags| bags.carry),
            bags_in_all: all.map(|bags| bags.buy),
            carry_in_all: all.map(|bags| bags.carry),
        };
        let cautions = self.setting.cautions(self.rested == Some(true));
        let sources = bag.map(|bag| bag.source());
        Some(Done::new(result, cautions, sources))
    }
}
