//! The job file: what is built where, and what of.

pub(crate) mod as_dug;
pub(crate) mod asked;
mod bags;
mod fields;
mod made_of;
pub(crate) mod posts;
mod reading;
mod runs;
pub(crate) mod site;
mod soil;

use as_dug::Dug;
use asked::Asked;
use fields::Table;
use groundline::Error;
use groundline::combination::CombinesTo;
use groundline::fence::{Fence, FencePost};
use groundline::limit_state::AllowableStress;
use groundline::plan::FencePlan;
use groundline::units::UnitSystem;
use groundline::wind::WindCode;
use posts::{Spec, Specs};
use reading::{Echo, Problem, Reading, line_of};
use site::Site;
use std::cell::RefCell;
use std::path::Path;
use toml::de::DeTable;

/// A job, read and in order.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Job {
    pub(crate) title: String,
    /// What else `[job]` says: a name and a text.
    pub(crate) details: Vec<(&'static str, String)>,
    pub(crate) system: UnitSystem,
    pub(crate) site: Site,
    pub(crate) fence: Fence,
    /// The names of the runs.
    pub(crate) runs: Vec<String>,
    pub(crate) specs: Specs,
    pub(crate) dug: Vec<Dug>,
    /// What more is asked of every post.
    pub(crate) asked: Asked,
    /// Every field as it was taken.
    pub(crate) echoes: Vec<Echo>,
}

impl Job {
    /// Reads a job file and the CSV of posts as dug that it names.
    pub(crate) fn open(path: &Path) -> Result<Self, Vec<Problem>> {
        let file = path.display().to_string();
        let one = |what: String| vec![Problem::new(&file, 0, what)];
        let bytes = std::fs::read(path).map_err(|error| one(error.to_string()))?;
        let text = String::from_utf8(bytes).map_err(|error| {
            let bytes = error.as_bytes();
            let valid = error.utf8_error().valid_up_to();
            let line = 1 + bytes.iter().take(valid).filter(|b| **b == b'\n').count();
            let what = "it is not UTF-8 text: save it as UTF-8 in your editor".to_owned();
            vec![Problem::new(&file, line, what)]
        })?;
        // Some editors put a mark in front.
        let text = text.strip_prefix('\u{feff}').unwrap_or(&text);
        let folder = path.parent().unwrap_or(Path::new(""));
        Self::parse(text, &file, folder)
    }

    /// Reads the text of a job file; the CSV it may name lies in `folder`.
    pub(crate) fn parse(text: &str, file: &str, folder: &Path) -> Result<Self, Vec<Problem>> {
        let (table, errors) = DeTable::parse_recoverable(text);
        if !errors.is_empty() {
            let told = errors.iter().map(|error| {
                let line = error.span().map_or(0, |span| line_of(text, span.start));
                let message = error.message().lines().next().unwrap_or_default();
                Problem::new(file, line, format!("this is not TOML: {message}"))
            });
            return Err(told.collect());
        }
        let mut reading = Reading {
            file: file.to_owned(),
            text,
            system: UnitSystem::Us,
            problems: RefCell::default(),
            echoes: RefCell::default(),
        };
        let units = [("us", UnitSystem::Us), ("si", UnitSystem::Si)];
        let system = Table::root(&reading, &table).choice("units", &units, true);
        reading.system = system.unwrap_or_default();

        let root = Table::root(&reading, &table);
        let _ = root.has("units");
        let (title, details) = about(&root.table("job"));
        let site = site::read(&root.table("site"));
        let fence = runs::read(&root);
        let specs = posts::read(&root);
        let asked = asked::read(&root);
        let csv = root.text("as_dug");
        root.finish();

        let mut more_problems = Vec::new();
        let mut dug = Vec::new();
        if let (Some(csv), Some((fence, _)), Some(specs)) = (&csv, &fence, &specs) {
            let path = folder.join(csv);
            let name = path.display().to_string();
            match std::fs::read(&path) {
                Ok(bytes) => match as_dug::read(&bytes, &name, fence, specs, reading.system) {
                    Ok(posts) => dug = posts,
                    Err(more) => more_problems = more,
                },
                Err(error) => {
                    root.refuse("as_dug", format!("{}: {error}", path.display()));
                }
            }
        }
        if let Some(specs) = &specs {
            let kinds = specs.kinds().iter().map(|(_, spec)| spec);
            let single = dug.iter().map(|dug: &Dug| &dug.spec);
            for spec in kinds.chain([specs.general()]).chain(single) {
                asked.want(&root, spec.set_in());
            }
        }
        let mut problems = reading.problems.borrow().clone();
        problems.extend(more_problems);
        problems.sort();
        let made = (site, fence, specs);
        let (Some(site), Some((fence, runs)), Some(specs)) = made else {
            return Err(problems);
        };
        if !problems.is_empty() {
            return Err(problems);
        }
        Ok(Self {
            title,
            details,
            system: reading.system,
            site,
            fence,
            runs,
            specs,
            dug,
            asked,
            echoes: reading.echoes.take(),
        })
    }

    /// The plan of it, with the wind of its site.
    pub(crate) fn plan<C: WindCode>(&self, site: C) -> Result<FencePlan<C>, Error>
    where
        C::Level: CombinesTo<AllowableStress>,
    {
        let general = self.specs.general();
        let mut plan = FencePlan::new(site, self.fence.clone(), general.design()?);
        if let Some(depth) = general.planned {
            plan = plan.with_planned_depth(depth);
        }
        for (kind, spec) in self.specs.kinds() {
            plan = plan.with_kind(*kind, spec.design()?, spec.planned);
        }
        for post in &self.dug {
            plan = plan.with_post(post.number, post.spec.design()?, post.spec.planned);
        }
        if !self.asked.anything() {
            return Ok(plan);
        }
        let asked = self.asked.of(general.set_in());
        plan = plan.with_site_checks(asked);
        // Other bags where something else fills the hole.
        for post in self.fence.posts() {
            let own = self.asked.of(self.spec(post).set_in());
            if own != asked {
                plan = plan.with_post_site_checks(post.number, own);
            }
        }
        Ok(plan)
    }

    /// What a post is set in and made of: as dug, or as its kind.
    pub(crate) fn spec(&self, post: &FencePost) -> &Spec {
        let dug = self.dug.iter().find(|dug| dug.number == post.number);
        dug.map_or_else(|| self.specs.of(post.kind), |dug| &dug.spec)
    }
}

/// Reads `[job]`.
fn about(job: &Table<'_>) -> (String, Vec<(&'static str, String)>) {
    let title = job
        .text("title")
        .unwrap_or_else(|| "Fence posts".to_owned());
    let names = [
        ("Job number", "number"),
        ("Client", "client"),
        ("Address", "address"),
        ("Prepared by", "prepared_by"),
        ("Date", "date"),
        ("Note", "note"),
    ];
    let details = names
        .into_iter()
        .filter_map(|(name, key)| Some((name, job.text(key)?)))
        .collect();
    job.finish();
    (title, details)
}
