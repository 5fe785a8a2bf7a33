//! The numbers behind table and chart.

use crate::{CaseBArg, ExposureArg, Flags, PostArg};
use groundline::Error;
use groundline::caution::Cautions;
use groundline::check::{Governing, PostDesign};
use groundline::fence::{Fence, FenceRun, Panel};
use groundline::foundation::Hole;
use groundline::ground::{Ground, SoilClass};
use groundline::plan::FencePlan;
use groundline::post::catalogue::{PIPES, TIMBERS};
use groundline::post::{DesignValues, Grade, Moisture, Post, Species, TimberPost, Treatment};
use groundline::units::{
    Length, Measurable, Measure, UnitSystem, Velocity, ft, inch, m, m_per_s, mm, mph, psf,
    round_up, show, show_as,
};
use groundline::wind::{AsceSite, BasicWindSpeed, EccentricCase, Edition, Exposure, WallOptions};

/// How a depth is told between two heights of the table.
const BETWEEN: u32 = 8;

/// What became of a post of a height in a wind.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Outcome {
    /// This depth holds, and was checked to.
    Depth(Length),
    /// It would need more than 12 ft.
    TooDeep,
    /// The post breaks whatever the depth.
    PostTooWeak,
    /// The ground under it is overloaded by the weight.
    BaseTooWeak,
}

impl Outcome {
    pub(crate) const fn state(self) -> &'static str {
        match self {
            Self::Depth(_) => "ok",
            Self::TooDeep => "needs more than 12 ft (3.66 m)",
            Self::PostTooWeak => "post too weak",
            Self::BaseTooWeak => "ground under the hole too weak",
        }
    }
}

/// The depths of one wind speed in one soil and hole.
#[derive(Debug)]
pub(crate) struct Curve {
    pub(crate) speed: Velocity,
    /// At the heights of the table, rounded up.
    pub(crate) cells: Vec<Outcome>,
    /// Between them too: the verdict at the depth rounded up, as in the table, and the
    /// depth not rounded.
    pub(crate) points: Vec<(Length, Outcome)>,
}

/// One soil and one hole.
#[derive(Debug)]
pub(crate) struct Panels {
    pub(crate) class: SoilClass,
    pub(crate) hole: Length,
    pub(crate) curves: Vec<Curve>,
}

/// All of it.
#[derive(Debug)]
pub(crate) struct Study {
    system: UnitSystem,
    pub(crate) heights: Vec<Length>,
    pub(crate) speeds: Vec<Velocity>,
    pub(crate) holes: Vec<Length>,
    pub(crate) soils: Vec<SoilClass>,
    /// Soil by soil, hole by hole.
    pub(crate) panels: Vec<Panels>,
    pub(crate) assumptions: Vec<String>,
    pub(crate) cautions: Cautions,
}

/// What all fences of a study share.
struct Site {
    exposure: Exposure,
    options: WallOptions,
    post: Post,
    length: Length,
    spacing: Length,
    solidity: f64,
    isolated_pole: bool,
}

/// What a class of soil is called, without its symbols.
pub(crate) fn class_name(class: SoilClass) -> &'static str {
    let text = class.description();
    text.split(" (").next().unwrap_or(text)
}

fn list<T: Copy>(given: &[T], default: &[T], most: usize, flag: &str) -> Result<Vec<T>, String> {
    let list = if given.is_empty() { default } else { given };
    if list.len() > most {
        return Err(format!(
            "{flag}: {} values are too many: give 1 to {most}, one page takes no more",
            list.len()
        ));
    }
    Ok(list.to_vec())
}

/// The flag that a refused field came from.
fn flag(field: &str) -> Option<&'static str> {
    Some(match field {
        "fence height" => "--heights",
        "wind speed" => "--speeds",
        "hole diameter" | "hole size" => "--holes",
        "post spacing" => "--spacing",
        "run length" => "--length",
        "solidity" => "--solidity",
        _ => return None,
    })
}

impl Study {
    pub(crate) fn new(flags: &Flags, system: UnitSystem) -> Result<Self, String> {
        let us = system == UnitSystem::Us;
        let by = |us_values: &[f64],
                  si_values: &[f64],
                  us_unit: fn(f64) -> Length,
                  si_unit: fn(f64) -> Length|
         -> Vec<Length> {
            if us {
                us_values.iter().copied().map(us_unit).collect()
            } else {
                si_values.iter().copied().map(si_unit).collect()
            }
        };
        let heights = by(
            &[3.0, 4.0, 5.0, 6.0, 7.0, 8.0],
            &[1.0, 1.2, 1.5, 1.8, 2.1, 2.4],
            ft,
            m,
        );
        let holes = by(&[12.0, 18.0, 24.0], &[300.0, 450.0, 600.0], inch, mm);
        let speeds: Vec<Velocity> = if us {
            [100.0, 115.0, 130.0, 150.0].map(mph).to_vec()
        } else {
            [45.0, 51.0, 58.0, 67.0].map(m_per_s).to_vec()
        };
        let heights = list(&flags.heights, &heights, 8, "--heights")?;
        if let Some(pair) = heights.windows(2).find(|pair| pair[0] >= pair[1]) {
            let [before, after] = [pair[0], pair[1]].map(|height| show(height, system).to_string());
            return Err(format!(
                "--heights: {after} after {before} is not allowed: give them ascending"
            ));
        }
        let holes = list(&flags.holes, &holes, 3, "--holes")?;
        let speeds = list(&flags.speeds, &speeds, 5, "--speeds")?;
        let tell = |error: Error| {
            let told = error.in_system(system);
            flag(error.field()).map_or(told.to_string(), |flag| format!("{flag}: {told}"))
        };
        let soils = list(&flags.soils, &[], 3, "--soils")?;
        let site = Site {
            exposure: match flags.exposure {
                ExposureArg::B => Exposure::B,
                ExposureArg::C => Exposure::C,
                ExposureArg::D => Exposure::D,
            },
            options: WallOptions::default().eccentric_case(match flags.case_b {
                CaseBArg::ShortRuns => EccentricCase::ShortRuns,
                CaseBArg::EveryRun => EccentricCase::EveryRun,
                CaseBArg::OneBase => EccentricCase::OneBase,
            }),
            post: post(flags.post).map_err(tell)?,
            length: flags.length.unwrap_or(if us { ft(96.0) } else { m(28.8) }),
            spacing: flags.spacing.unwrap_or(if us { ft(6.0) } else { m(1.8) }),
            solidity: flags.solidity,
            isolated_pole: flags.isolated_pole,
        };
        let mut study = Self {
            system,
            assumptions: Vec::new(),
            panels: Vec::new(),
            cautions: Cautions::default(),
            heights,
            speeds,
            holes,
            soils,
        };
        for class in study.soils.clone() {
            for hole in study.holes.clone() {
                let panel = study.panel(&site, class, hole).map_err(tell)?;
                study.panels.push(panel);
            }
        }
        study.assumptions = study.assumed(&site, flags);
        Ok(study)
    }

    fn panel(&mut self, site: &Site, class: SoilClass, hole: Length) -> Result<Panels, Error> {
        let mut curves = Vec::new();
        for speed in self.speeds.clone() {
            let mut cells = Vec::new();
            for height in self.heights.clone() {
                let plan = site.plan(class, hole, speed, height)?;
                let (outcome, _, cautions) = depth(&plan, |depth| self.rounded_up(depth))?;
                self.cautions = self.cautions.and(cautions);
                cells.push(outcome);
            }
            let mut points = Vec::new();
            for pair in self.heights.windows(2) {
                for part in 0..BETWEEN {
                    let share = f64::from(part) / f64::from(BETWEEN);
                    points.push(pair[0] + (pair[1] - pair[0]) * share);
                }
            }
            points.extend(self.heights.last());
            let points = points
                .into_iter()
                .map(|height| {
                    let plan = site.plan(class, hole, speed, height)?;
                    let (outcome, needed, _) = depth(&plan, |depth| self.rounded_up(depth))?;
                    Ok(match outcome {
                        Outcome::Depth(_) => (height, Outcome::Depth(needed)),
                        other => (height, other),
                    })
                })
                .collect::<Result<_, Error>>()?;
            curves.push(Curve {
                speed,
                cells,
                points,
            });
        }
        Ok(Panels {
            class,
            hole,
            curves,
        })
    }

    /// Up to the next inch, or 10 mm.
    fn rounded_up(&self, depth: Length) -> Length {
        let unit = match self.system {
            UnitSystem::Us => inch(1.0),
            UnitSystem::Si => mm(10.0),
        };
        round_up(depth, unit)
    }

    fn assumed(&self, site: &Site, flags: &Flags) -> Vec<String> {
        let doubled = if site.isolated_pole {
            ", doubled as for isolated poles"
        } else {
            ""
        };
        let case_b = site.options.case_b_text();
        vec![
            format!(
                "Wind: {}, exposure {}, basic wind speeds of the map (3-second gust, strength level), \
                 flat ground, sea level, minimum {} as a load case of its own; off-centre case on {case_b}.",
                Edition::Asce7_22.name(),
                site.exposure.letter(),
                show_as(psf(16.0), Measure::WindPressure, self.system)
            ),
            format!(
                "Fence: straight, {} long, free at both ends, level, no gates; posts up to {} apart; \
                 panel {} % solid, on the ground, weighing {}. Its worst post sets the depth of all.",
                self.told(site.length),
                self.told(site.spacing),
                (site.solidity * 1000.0).round() / 10.0,
                match self.system {
                    UnitSystem::Us => "5 psf",
                    UnitSystem::Si => "0.239 kPa (24.4 kg on a square metre)",
                }
            ),
            format!(
                "Post: {}; bending (at grade and below) and shear checked.",
                post_name(flags.post, self.system)
            ),
            format!(
                "Hole: round, filled with concrete against undisturbed ground, nothing rigid at grade; \
                 IBC 1807.3.2.1, D + 0.6W, presumptive bearing of Table 1806.2{doubled}.",
            ),
            format!(
                "Depths are below grade, rounded up to {}; each was checked at that depth.",
                match self.system {
                    UnitSystem::Us => "a whole inch",
                    UnitSystem::Si => "10 mm",
                }
            ),
        ]
    }

    /// What the marks mean.
    pub(crate) fn key(&self) -> [&'static str; 2] {
        [
            "x      no depth will do: the post, or the ground under it, is overloaded",
            match self.system {
                UnitSystem::Us => ">144   deeper than 12 ft, beyond what the pole formula is for",
                UnitSystem::Si => ">3660  deeper than 3.66 m, beyond what the pole formula is for",
            },
        ]
    }

    pub(crate) fn cell(&self, outcome: &Outcome) -> String {
        match outcome {
            Outcome::Depth(depth) => self.size(*depth),
            Outcome::TooDeep => match self.system {
                UnitSystem::Us => ">144".to_owned(),
                UnitSystem::Si => ">3660".to_owned(),
            },
            Outcome::PostTooWeak | Outcome::BaseTooWeak => "x".to_owned(),
        }
    }

    fn told(&self, length: Length) -> String {
        show(length, self.system).to_string()
    }

    /// A number without its unit.
    fn bare(&self, quantity: impl Measurable, measure: Measure) -> String {
        let text = show_as(quantity, measure, self.system).to_string();
        text.split(' ').next().unwrap_or_default().to_owned()
    }
    pub(crate) fn length(&self, length: Length) -> String {
        self.bare(length, Measure::Length)
    }
    pub(crate) fn size(&self, size: Length) -> String {
        self.bare(size, Measure::SectionLength)
    }
    pub(crate) fn speed(&self, speed: Velocity) -> String {
        self.bare(speed, Measure::Speed)
    }
    pub(crate) fn length_unit(&self) -> &'static str {
        Measure::Length.symbol(self.system)
    }
    pub(crate) fn size_unit(&self) -> &'static str {
        Measure::SectionLength.symbol(self.system)
    }
    pub(crate) fn depth_word(&self) -> &'static str {
        match self.system {
            UnitSystem::Us => "inches",
            UnitSystem::Si => "mm",
        }
    }
    pub(crate) fn height_word(&self) -> &'static str {
        match self.system {
            UnitSystem::Us => "feet",
            UnitSystem::Si => "metres",
        }
    }
    pub(crate) fn speed_unit(&self) -> &'static str {
        Measure::Speed.symbol(self.system)
    }
    pub(crate) fn system(&self) -> UnitSystem {
        self.system
    }
}

impl Site {
    fn plan(
        &self,
        class: SoilClass,
        hole: Length,
        speed: Velocity,
        height: Length,
    ) -> Result<FencePlan, Error> {
        let speed = BasicWindSpeed::strength_level(speed)?;
        let wind =
            AsceSite::new(Edition::Asce7_22, speed, self.exposure).with_options(self.options);
        let panel = Panel::new(height)?
            .with_solidity(self.solidity)?
            .with_weight(psf(5.0))?;
        let fence = Fence::new(FenceRun::new(panel, self.length, self.spacing)?);
        let ground = Ground::presumptive(class);
        let ground = if self.isolated_pole {
            ground.as_isolated_pole()
        } else {
            ground
        };
        let design = PostDesign::in_concrete(ground, self.post, Hole::round(hole)?)?;
        Ok(FencePlan::new(wind, fence, design))
    }
}

/// The depth that every post of a plan holds at, rounded and checked at it, and the
/// depth required before rounding.
fn depth(
    plan: &FencePlan,
    round: impl Fn(Length) -> Length,
) -> Result<(Outcome, Length, Cautions), Error> {
    let schedule = plan.schedule()?;
    let cautions = schedule.cautions();
    let mut deepest = Length::default();
    for post in schedule.posts() {
        if post.check.post_is_too_weak() {
            return Ok((Outcome::PostTooWeak, deepest, cautions));
        }
        let required = post.check.required.depth();
        deepest = if required > deepest {
            required
        } else {
            deepest
        };
    }
    let depth = round(deepest);
    if depth > ft(12.0) {
        return Ok((Outcome::TooDeep, deepest, cautions));
    }
    // Every post set to the depth of the worst.
    let planned = plan.clone().with_planned_depth(depth);
    let schedule = planned.schedule()?;
    let failing = schedule.posts().find(|post| !post.check.passes());
    let outcome = match failing {
        None => Outcome::Depth(depth),
        Some(post) if post.check.governing == Governing::VerticalBearing => Outcome::BaseTooWeak,
        Some(_) => Outcome::PostTooWeak,
    };
    Ok((outcome, deepest, cautions.and(schedule.cautions())))
}

fn timber(index: usize) -> Result<Post, Error> {
    let size = &TIMBERS[index];
    let values = DesignValues::of(Species::SouthernPine, Grade::No2, size.side())?;
    let post = TimberPost::new(
        size.section()?,
        values,
        Moisture::Wet,
        Treatment::NotIncised,
    )?;
    Ok(post.into())
}

/// Which row of the catalogue a flag means.
const fn row(post: PostArg) -> usize {
    match post {
        PostArg::Timber4 => 0,
        PostArg::Timber6 => 1,
        PostArg::Timber8 => 2,
        PostArg::Pipe2375 => 8,
        PostArg::Pipe2875 => 9,
        PostArg::Pipe4 => 10,
        PostArg::Pipe35 => 3,
        PostArg::Pipe45 => 5,
        PostArg::Pipe6625 => 6,
    }
}

fn post(flag: PostArg) -> Result<Post, Error> {
    match flag {
        PostArg::Timber4 | PostArg::Timber6 | PostArg::Timber8 => timber(row(flag)),
        _ => Ok(PIPES[row(flag)].post()?.into()),
    }
}

fn post_name(flag: PostArg, system: UnitSystem) -> String {
    let size = |length: Length| show_as(length, Measure::SectionLength, system);
    match flag {
        PostArg::Timber4 | PostArg::Timber6 | PostArg::Timber8 => {
            let timber = &TIMBERS[row(flag)];
            format!(
                "{} ({} square) southern pine No. 2, wet, not incised",
                timber.name(),
                size(timber.side())
            )
        }
        _ => {
            let pipe = &PIPES[row(flag)];
            let fy = pipe.steel().map_or(String::new(), |steel| {
                show_as(steel.yield_strength(), Measure::Stress, system).to_string()
            });
            format!(
                "steel pipe {} x {}, yield strength {fy}",
                size(pipe.outside()),
                size(pipe.wall())
            )
        }
    }
}
