//! The flags, and what they mean to the library.

use clap::{Parser, ValueEnum};
use groundline::Error;
use groundline::backfill::Bag;
use groundline::check::{
    FrostOptions, Grip, GroundStiffness, LeanOptions, MaterialOptions, PostDesign, SiteChecks,
};
use groundline::embedment::DepthCap;
use groundline::fence::{Fence, FenceRun, Gate, Hinges, Panel};
use groundline::foundation::{Hole, Restraint};
use groundline::ground::{Ground, LateralBearing, SoilClass};
use groundline::limit_state::AllowableStress;
use groundline::post::{
    DesignValues, Grade, Moisture, PipePost, Post, Species, SteelStrength, TimberPost, Treatment,
};
use groundline::section::{Square, Tube};
use groundline::units::{
    Angle, Force, ForcePerVolume, Length, Measurable, ParseQuantityError, Pressure, Ratio,
    UnitSystem, Velocity, deg, ft, lb, m4, n_sq_m, pa, parse,
};
use groundline::wind::{
    AsceSite, BasicWindSpeed, EccentricCase, Edition, Exposure, RiskCategory, WallOptions,
};
use std::fmt::Display;
use std::str::FromStr;

#[path = "one_line.rs"]
#[allow(dead_code, reason = "shared by the examples")]
pub(crate) mod one_line;

/// A quantity as typed, kept with its text for messages.
#[derive(Debug, Clone)]
pub(crate) struct Typed<Q> {
    pub(crate) text: String,
    pub(crate) value: Q,
}

impl<Q: Measurable> FromStr for Typed<Q> {
    type Err = ParseQuantityError;

    fn from_str(text: &str) -> Result<Self, ParseQuantityError> {
        Ok(Self {
            text: text.to_owned(),
            value: parse(text)?,
        })
    }
}

#[derive(Debug, Clone, Copy, ValueEnum)]
pub(crate) enum EditionArg {
    #[value(name = "7-10")]
    E10,
    #[value(name = "7-16")]
    E16,
    #[value(name = "7-22")]
    E22,
}

#[derive(Debug, Clone, Copy, ValueEnum)]
pub(crate) enum ExposureArg {
    B,
    C,
    D,
}

#[derive(Debug, Clone, Copy, ValueEnum)]
pub(crate) enum HingesArg {
    Start,
    End,
    Both,
}

#[derive(Debug, Clone, Copy, ValueEnum)]
pub(crate) enum SpeciesArg {
    SouthernPine,
    DouglasFir,
    HemFir,
    SprucePineFir,
    WesternCedar,
}

impl SpeciesArg {
    pub(crate) const fn name(self) -> &'static str {
        match self {
            Self::SouthernPine => "southern pine",
            Self::DouglasFir => "Douglas fir-larch",
            Self::HemFir => "hem-fir",
            Self::SprucePineFir => "spruce-pine-fir",
            Self::WesternCedar => "western cedar",
        }
    }
}

#[derive(Debug, Clone, Copy, PartialEq, ValueEnum)]
pub(crate) enum CaseBArg {
    ShortRuns,
    EveryRun,
    OneBase,
}

#[derive(Debug, Clone, Copy, PartialEq, ValueEnum)]
pub(crate) enum TreatmentArg {
    Incised,
    NotIncised,
}

#[derive(Debug, Clone, Copy, PartialEq, ValueEnum)]
pub(crate) enum CapArg {
    Depth,
    Reading,
}

#[derive(Debug, Clone, Copy, PartialEq, ValueEnum)]
pub(crate) enum UnitsArg {
    Us,
    Si,
}

/// Depth and strength of every post of a solid fence in the wind.
///
/// Quantities are typed with their unit: "8 ft", 2.4m, "6' 6\"", "115 mph",
/// "150 psf/ft". Without flags it computes an invented example.
#[derive(Debug, Parser)]
#[expect(clippy::struct_excessive_bools, reason = "each is a flag of its own")]
#[command(name = "tall_privacy_fence", allow_negative_numbers = true)]
pub(crate) struct Flags {
    /// Height of the top of the fence above ground.
    #[arg(long, default_value = "8 ft", allow_hyphen_values = true)]
    pub(crate) height: Typed<Length>,
    /// Clear gap below the boards.
    #[arg(long, default_value = "2 in", allow_hyphen_values = true)]
    pub(crate) clearance: Typed<Length>,
    /// Solid area over gross area, 0.7 to 1 (or "85 %").
    #[arg(long, default_value = "1", allow_hyphen_values = true)]
    pub(crate) solidity: Typed<Ratio>,
    /// Weight of boards and rails on the gross area.
    #[arg(long, default_value = "5 psf", allow_hyphen_values = true)]
    pub(crate) panel_weight: Typed<Pressure>,
    /// Length of the first straight run.
    #[arg(long, default_value = "84 ft", allow_hyphen_values = true)]
    pub(crate) front: Typed<Length>,
    /// Length of the second run, round the corner; "none" for a straight fence.
    #[arg(long, default_value = "48 ft", allow_hyphen_values = true)]
    pub(crate) side: String,
    /// Turn of the corner [default: 90 deg].
    #[arg(long, allow_hyphen_values = true)]
    pub(crate) turn: Option<Typed<Angle>>,
    /// Greatest post spacing.
    #[arg(long, default_value = "6 ft", allow_hyphen_values = true)]
    pub(crate) spacing: Typed<Length>,
    /// Start of the gate along the first run; "none" for no gate.
    #[arg(long, default_value = "36 ft", allow_hyphen_values = true)]
    pub(crate) gate_at: String,
    /// Gate opening, between post centres [default: 4 ft].
    #[arg(long, allow_hyphen_values = true)]
    pub(crate) gate_opening: Option<Typed<Length>>,
    /// Weight of one gate leaf [default: 150 lb].
    #[arg(long, allow_hyphen_values = true)]
    pub(crate) gate_weight: Option<Typed<Force>>,
    /// Side the leaf hangs on [default: start].
    #[arg(long, value_enum)]
    pub(crate) gate_hinges: Option<HingesArg>,

    /// Edition of ASCE 7.
    #[arg(long, value_enum, default_value = "7-16")]
    pub(crate) edition: EditionArg,
    /// Basic wind speed of that edition (strength level, not an older or V_asd speed).
    #[arg(long, default_value = "105 mph", allow_hyphen_values = true)]
    pub(crate) speed: Typed<Velocity>,
    /// Risk category of the map the speed was read from: I, II, III or IV.
    #[arg(long, default_value = "II")]
    pub(crate) risk_category: RiskCategory,
    /// Exposure category.
    #[arg(long, value_enum, default_value = "B", ignore_case = true)]
    pub(crate) exposure: ExposureArg,
    /// Topographic factor Kzt.
    #[arg(long, default_value = "1", allow_hyphen_values = true)]
    pub(crate) topographic_factor: Typed<Ratio>,
    /// Ground elevation above sea level (7-16 and 7-22).
    #[arg(long, allow_hyphen_values = true)]
    pub(crate) elevation: Option<Typed<Length>>,
    /// Case B, the off-centre resultant, as linear pressure along runs up to 5 times as
    /// long as high, along every run (heavier), or none (torsion of one base).
    #[arg(long, value_enum, default_value = "short-runs")]
    pub(crate) case_b: CaseBArg,

    /// Class of material, IBC Table 1806.2, 1 to 5.
    #[arg(long, default_value = "3", value_parser = soil_class, allow_hyphen_values = true)]
    pub(crate) soil_class: SoilClass,
    /// Allowable lateral bearing per depth instead of a class.
    #[arg(long, conflicts_with = "soil_class", allow_hyphen_values = true)]
    pub(crate) lateral_bearing: Option<Typed<ForcePerVolume>>,
    /// Double the lateral bearing: only where 1/2 in of movement does no harm.
    #[arg(long)]
    pub(crate) isolated_pole: bool,
    /// Alternative load combinations with the one-third soil increase.
    #[arg(long)]
    pub(crate) one_third_increase: bool,
    /// Top layer that does not count: frost, loose fill.
    #[arg(long, default_value = "0 in", allow_hyphen_values = true)]
    pub(crate) discount_top: Typed<Length>,
    /// How the 12 ft rule is read: the depth is capped, or the reading at d/3.
    #[arg(long, value_enum, default_value = "depth")]
    pub(crate) twelve_foot_rule: CapArg,

    /// Hole diameter, filled with concrete (side, with --square-hole).
    #[arg(long, default_value = "18 in", allow_hyphen_values = true)]
    pub(crate) hole: Typed<Length>,
    /// The hole is dug square.
    #[arg(long)]
    pub(crate) square_hole: bool,
    /// No concrete: the post alone bears, in backfill to IBC 1807.3.3.
    #[arg(long, conflicts_with_all = ["hole", "square_hole"])]
    pub(crate) bare: bool,
    /// Rigid paving holds the post at grade.
    #[arg(long)]
    pub(crate) paved: bool,
    /// The depth the crew plans, or dug.
    #[arg(long, default_value = "66 in", allow_hyphen_values = true)]
    pub(crate) planned_depth: Typed<Length>,

    /// Actual size of a square timber post.
    #[arg(long, default_value = "5.5 in", allow_hyphen_values = true)]
    pub(crate) timber: Typed<Length>,
    /// Species of the timber post.
    #[arg(long, value_enum, default_value = "southern-pine")]
    pub(crate) species: SpeciesArg,
    /// Grade of the timber post, 1 or 2.
    #[arg(long, default_value = "1", value_parser = grade, allow_hyphen_values = true)]
    pub(crate) grade: Grade,
    /// Preservative treatment [default: not-incised for southern pine, else incised].
    #[arg(long, value_enum)]
    pub(crate) treatment: Option<TreatmentArg>,
    /// Outside diameter of a steel pipe post, instead of timber.
    #[arg(long, conflicts_with_all = ["timber", "species", "grade", "treatment"], allow_hyphen_values = true)]
    pub(crate) pipe: Option<Typed<Length>>,
    /// Design wall of the pipe.
    #[arg(
        long,
        default_value = "0.16 in",
        requires = "pipe",
        allow_hyphen_values = true
    )]
    pub(crate) pipe_wall: Typed<Length>,
    /// Yield strength of the pipe.
    #[arg(
        long,
        default_value = "50 ksi",
        requires = "pipe",
        allow_hyphen_values = true
    )]
    pub(crate) pipe_yield: Typed<Pressure>,

    /// Check frost of this depth, in fine-grained wet ground.
    #[arg(long, allow_hyphen_values = true)]
    pub(crate) frost: Option<Typed<Length>>,
    /// Lean of the top in ground whose stiffness grows with depth by this, such
    /// as "5 MN/m3".
    #[arg(long, allow_hyphen_values = true)]
    pub(crate) lean: Option<Typed<ForcePerVolume>>,
    /// Modulus of elasticity of a timber post, for --lean [default: that of its
    /// species and grade, wet].
    #[arg(
        long,
        requires = "lean",
        conflicts_with = "pipe",
        allow_hyphen_values = true
    )]
    pub(crate) modulus: Option<Typed<Pressure>>,
    /// Bags to count the concrete in, pounds: 40, 50, 60, 80.
    #[arg(long, default_value = "80", value_parser = bag, allow_hyphen_values = true)]
    pub(crate) bag: Bag,

    /// Exit with status 1 if any post fails, or a check that a flag adds cannot be
    /// made; without it the status is 0 whatever the verdicts.
    #[arg(long)]
    pub(crate) fail_status: bool,
    /// Show the pressure along each run, strip by strip, instead of the schedule.
    #[arg(long, conflicts_with = "worksheet")]
    pub(crate) pressures: bool,
    /// Output units.
    #[arg(long, value_enum, default_value = "us")]
    pub(crate) units: UnitsArg,
    /// Show the calculation of this post line by line instead of the schedule.
    #[arg(long, value_name = "POST", value_parser = post_number, allow_hyphen_values = true)]
    pub(crate) worksheet: Option<usize>,
    /// The worksheet in Markdown.
    #[arg(long, requires = "worksheet")]
    pub(crate) markdown: bool,
}

fn soil_class(text: &str) -> Result<SoilClass, String> {
    text.parse()
        .ok()
        .and_then(|number| SoilClass::from_number(number).ok())
        .ok_or_else(|| "give 1 to 5, the class of material of IBC Table 1806.2".to_owned())
}

fn bag(text: &str) -> Result<Bag, String> {
    match text {
        "40" => Ok(Bag::lb_40()),
        "50" => Ok(Bag::lb_50()),
        "60" => Ok(Bag::lb_60()),
        "80" => Ok(Bag::lb_80()),
        _ => Err("give 40, 50, 60 or 80".to_owned()),
    }
}

fn grade(text: &str) -> Result<Grade, String> {
    match text {
        "1" => Ok(Grade::No1),
        "2" => Ok(Grade::No2),
        _ => Err("give 1 or 2".to_owned()),
    }
}

fn post_number(text: &str) -> Result<usize, String> {
    text.parse()
        .map_err(|_| "give the number of a post, as in the schedule".to_owned())
}

impl Flags {
    pub(crate) fn system(&self) -> UnitSystem {
        match self.units {
            UnitsArg::Us => UnitSystem::Us,
            UnitsArg::Si => UnitSystem::Si,
        }
    }

    /// Ties a refusal to the flag it comes from.
    pub(crate) fn blame<'a>(
        &self,
        flag: &'a str,
        text: impl Display + 'a,
    ) -> impl FnOnce(Error) -> String + 'a {
        let system = self.system();
        move |error| format!("{flag} \"{text}\": {}", error.in_system(system))
    }

    fn options(&self) -> WallOptions {
        WallOptions::default().eccentric_case(match self.case_b {
            CaseBArg::ShortRuns => EccentricCase::ShortRuns,
            CaseBArg::EveryRun => EccentricCase::EveryRun,
            CaseBArg::OneBase => EccentricCase::OneBase,
        })
    }

    pub(crate) fn fence(&self) -> Result<Fence, String> {
        let panel = Panel::new(self.height.value)
            .map_err(self.blame("--height", &self.height.text))?
            .with_clearance(self.clearance.value)
            .map_err(self.blame("--clearance", &self.clearance.text))?
            .with_solidity(self.solidity.value.value)
            .map_err(self.blame("--solidity", &self.solidity.text))?
            .with_weight(self.panel_weight.value)
            .map_err(self.blame("--panel-weight", &self.panel_weight.text))?;
        let run = |flag: &'static str, text: &str, length: Length| {
            FenceRun::new(panel, length, self.spacing.value).map_err(|error| {
                if error.field() == "post spacing" {
                    self.blame("--spacing", &self.spacing.text)(error)
                } else {
                    self.blame(flag, text)(error)
                }
            })
        };
        let mut front = run("--front", &self.front.text, self.front.value)?;
        if let Some(at) = optional("--gate-at", &self.gate_at)? {
            let gate = self.gate(at)?;
            front = front
                .with_gate(gate)
                .map_err(self.blame("--gate-at", &self.gate_at))?;
        } else {
            let unused = [
                ("--gate-opening", self.gate_opening.is_some()),
                ("--gate-weight", self.gate_weight.is_some()),
                ("--gate-hinges", self.gate_hinges.is_some()),
            ];
            for (flag, given) in unused {
                if given {
                    return Err(format!("{flag}: there is no gate with --gate-at \"none\""));
                }
            }
        }
        let fence = Fence::new(front);
        match (optional("--side", &self.side)?, &self.turn) {
            (None, None) => Ok(fence),
            (None, Some(_)) => Err("--turn: there is no corner with --side \"none\"".to_owned()),
            (Some(length), turn) => {
                let side = run("--side", &self.side, length)?;
                let (text, angle) = match turn {
                    Some(turn) => (turn.text.as_str(), turn.value),
                    None => ("90 deg", deg(90.0)),
                };
                fence
                    .turning(angle, side)
                    .map_err(self.blame("--turn", text))
            }
        }
    }

    /// The gate of the first run: 4 ft and 150 lb unless said otherwise.
    fn gate(&self, at: Length) -> Result<Gate, String> {
        let hinges = match self.gate_hinges.unwrap_or(HingesArg::Start) {
            HingesArg::Start => Hinges::AtStart,
            HingesArg::End => Hinges::AtEnd,
            HingesArg::Both => Hinges::Both,
        };
        let (opening_text, opening) = match &self.gate_opening {
            Some(opening) => (opening.text.as_str(), opening.value),
            None => ("4 ft", ft(4.0)),
        };
        let (weight_text, weight) = match &self.gate_weight {
            Some(weight) => (weight.text.as_str(), weight.value),
            None => ("150 lb", lb(150.0)),
        };
        Gate::new(at, opening, weight, hinges).map_err(|error| match error.field() {
            "gate opening" => self.blame("--gate-opening", opening_text)(error),
            "gate leaf weight" => self.blame("--gate-weight", weight_text)(error),
            _ => self.blame("--gate-at", &self.gate_at)(error),
        })
    }

    pub(crate) fn site(&self) -> Result<AsceSite, String> {
        let edition = match self.edition {
            EditionArg::E10 => Edition::Asce7_10,
            EditionArg::E16 => Edition::Asce7_16,
            EditionArg::E22 => Edition::Asce7_22,
        };
        let exposure = match self.exposure {
            ExposureArg::B => Exposure::B,
            ExposureArg::C => Exposure::C,
            ExposureArg::D => Exposure::D,
        };
        let speed = BasicWindSpeed::strength_level(self.speed.value)
            .map_err(self.blame("--speed", &self.speed.text))?;
        let site = AsceSite::new(edition, speed, exposure)
            .with_topographic_factor(self.topographic_factor.value.value)
            .map_err(self.blame("--topographic-factor", &self.topographic_factor.text))?;
        let site = site
            .with_options(self.options())
            .with_risk_category(self.risk_category);
        match &self.elevation {
            None => Ok(site),
            Some(elevation) => site
                .at_elevation(elevation.value)
                .map_err(self.blame("--elevation", &elevation.text)),
        }
    }

    fn ground(&self) -> Result<Ground, String> {
        let ground = match &self.lateral_bearing {
            Some(bearing) => Ground::given(
                LateralBearing::new(bearing.value)
                    .map_err(self.blame("--lateral-bearing", &bearing.text))?,
            ),
            None => Ground::presumptive(self.soil_class),
        };
        let ground = if self.isolated_pole {
            ground.as_isolated_pole()
        } else {
            ground
        };
        ground
            .discounting_top(self.discount_top.value)
            .map_err(self.blame("--discount-top", &self.discount_top.text))
    }

    fn post(&self) -> Result<Post, String> {
        if let Some(pipe) = &self.pipe {
            let tube = Tube::new(pipe.value, self.pipe_wall.value).map_err(|error| {
                if error.field() == "pipe wall" {
                    self.blame("--pipe-wall", &self.pipe_wall.text)(error)
                } else {
                    self.blame("--pipe", &pipe.text)(error)
                }
            })?;
            let steel = SteelStrength::new(self.pipe_yield.value)
                .map_err(self.blame("--pipe-yield", &self.pipe_yield.text))?;
            return PipePost::new(tube, steel)
                .map(Post::from)
                .map_err(self.blame("--pipe-wall", &self.pipe_wall.text));
        }
        let species = match self.species {
            SpeciesArg::SouthernPine => Species::SouthernPine,
            SpeciesArg::DouglasFir => Species::DouglasFirLarch,
            SpeciesArg::HemFir => Species::HemFir,
            SpeciesArg::SprucePineFir => Species::SprucePineFir,
            SpeciesArg::WesternCedar => Species::WesternCedars,
        };
        let section =
            Square::new(self.timber.value).map_err(self.blame("--timber", &self.timber.text))?;
        let values = DesignValues::of(species, self.grade, self.timber.value)
            .map_err(self.blame("--species", self.species.name()))?;
        // Southern pine takes treatment without incising, others mostly not.
        let incised = match self.treatment {
            Some(given) => given == TreatmentArg::Incised,
            None => species != Species::SouthernPine,
        };
        let treatment = if incised {
            Treatment::Incised
        } else {
            Treatment::NotIncised
        };
        TimberPost::new(section, values, Moisture::Wet, treatment)
            .map(Post::from)
            .map_err(self.blame("--timber", &self.timber.text))
    }

    /// What is asked for beside the checks of every post.
    pub(crate) fn site_checks(&self) -> Result<SiteChecks, String> {
        let mut asked = SiteChecks::default();
        if !self.bare {
            asked = asked.with_materials(MaterialOptions::new(self.bag));
        }
        if let Some(depth) = &self.frost {
            asked = asked.with_frost(
                FrostOptions::new(depth.value, Grip::FineGrained)
                    .map_err(self.blame("--frost", &depth.text))?,
            );
        }
        if let Some(growth) = &self.lean {
            let ground = GroundStiffness::growing(growth.value)
                .map_err(self.blame("--lean", &growth.text))?;
            let mut lean = LeanOptions::new(ground);
            if let Some(modulus) = &self.modulus {
                let section = Square::new(self.timber.value)
                    .map_err(self.blame("--timber", &self.timber.text))?;
                let inertia = section.second_moment().to(m4);
                lean = lean
                    .with_rigidity(n_sq_m(modulus.value.to(pa) * inertia))
                    .map_err(self.blame("--modulus", &modulus.text))?;
            }
            asked = asked.with_lean(lean);
        }
        Ok(asked)
    }

    pub(crate) fn design(&self) -> Result<PostDesign, String> {
        let (ground, post) = (self.ground()?, self.post()?);
        let blame = |error: Error| {
            let message = self.blame("--hole", &self.hole.text)(error);
            if error.field() == "hole size" {
                message + ", so that the post fits with 1 in around it"
            } else {
                message
            }
        };
        let design = if self.bare {
            PostDesign::bare(ground, post)
        } else {
            let hole = if self.square_hole {
                Hole::square(self.hole.value)
            } else {
                Hole::round(self.hole.value)
            };
            PostDesign::in_concrete(ground, post, hole.map_err(blame)?).map_err(blame)?
        };
        Ok(design
            .restrained_by(if self.paved {
                Restraint::RigidPaving
            } else {
                Restraint::None
            })
            .with_cap(match self.twelve_foot_rule {
                CapArg::Depth => DepthCap::CapDepth,
                CapArg::Reading => DepthCap::CapReading,
            })
            .with_combination(if self.one_third_increase {
                AllowableStress::AlternativeWithIncrease
            } else {
                AllowableStress::Basic
            }))
    }
}

/// A length, or nothing for "none".
fn optional(flag: &str, text: &str) -> Result<Option<Length>, String> {
    if text.trim() == "none" {
        Ok(None)
    } else {
        parse(text)
            .map(Some)
            .map_err(|error| format!("{flag} \"{text}\": {error}, or \"none\""))
    }
}
