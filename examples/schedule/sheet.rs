//! Everything the outputs show, computed once, whatever the wind code.

use super::drawing::hole::HolePicture;
use super::job::Job;
use super::job::site::Site;
use super::rows::Row;
use groundline::actions::PressurePicture;
use groundline::caution::Cautions;
use groundline::combination::CombinesTo;
use groundline::fence::PostKind;
use groundline::limit_state::AllowableStress;
use groundline::step::Worksheet;
use groundline::units::UnitSystem;
use groundline::wind::WindCode;

/// A schedule with its worksheets.
#[derive(Debug)]
pub(crate) struct Sheet<'a> {
    pub(crate) job: &'a Job,
    pub(crate) rows: Vec<Row>,
    /// The number of the post that governs, and its worksheet, for each kind;
    /// the one that governs the fence first.
    pub(crate) governing: Vec<(usize, Worksheet)>,
    /// Worksheets of all posts, if asked for.
    pub(crate) all: Option<Vec<Worksheet>>,
    /// The pressure along each run.
    pub(crate) pressures: Vec<PressurePicture>,
    pub(crate) hole: Option<HolePicture>,
    pub(crate) cautions: Cautions,
    pub(crate) document: &'static str,
    /// The state the wind is stated at.
    pub(crate) level: &'static str,
}

impl Sheet<'_> {
    pub(crate) fn system(&self) -> UnitSystem {
        self.job.system
    }

    pub(crate) fn failing(&self) -> usize {
        let failing = self.rows.iter().filter(|row| !row.failing.is_empty());
        failing.count()
    }

    /// The row of the post that governs the fence.
    pub(crate) fn worst(&self) -> Option<&Row> {
        let number = self.governing.first().map(|(number, _)| *number)?;
        self.rows.iter().find(|row| row.number == number)
    }
}

/// Computes the sheet of a job. `tick` hears of every post done.
pub(crate) fn of<'a>(job: &'a Job, all: bool, tick: &dyn Fn()) -> Result<Sheet<'a>, String> {
    match job.site {
        Site::Asce(site) => at(job, site, all, tick),
        Site::GivenStrength(site) => at(job, site, all, tick),
        Site::GivenAllowable(site) => at(job, site, all, tick),
    }
}

fn at<'a, C: WindCode>(
    job: &'a Job,
    site: C,
    all: bool,
    tick: &dyn Fn(),
) -> Result<Sheet<'a>, String>
where
    C::Level: CombinesTo<AllowableStress>,
{
    let system = job.system;
    let said = |error: groundline::Error| error.in_system(system).to_string();
    let plan = job.plan(site).map_err(said)?;
    let schedule = plan.schedule().map_err(said)?;
    let mut rows = Vec::new();
    let mut cautions = Cautions::default();
    let mut sheets = all.then(Vec::new);
    for post in schedule.posts() {
        let dug = job.dug.iter().find(|dug| dug.number == post.post.number);
        let note = dug.map(|dug| dug.note.clone());
        rows.push(Row::new(&site, &post, &job.runs, note));
        cautions = cautions.and(post.cautions());
        if let Some(sheets) = &mut sheets {
            sheets.push(schedule.worksheet(&post, system));
        }
        tick();
    }
    let kinds = [
        PostKind::End,
        PostKind::Line,
        PostKind::Corner,
        PostKind::Gate,
    ];
    let mut worst: Vec<&Row> = kinds
        .into_iter()
        .filter_map(|kind| rows.iter().filter(|row| row.kind == kind).reduce(worse))
        .collect();
    // Stable: of equals the first kind stays first.
    worst.sort_by(|a, b| {
        let required = |row: &Row| row.required.value;
        (b.utilization.cmp(&a.utilization)).then(required(b).total_cmp(&required(a)))
    });
    let governing = worst
        .iter()
        .filter_map(|row| {
            let post = schedule.post(row.number)?;
            Some((row.number, schedule.worksheet(&post, system)))
        })
        .collect();
    let first = worst.first().and_then(|row| schedule.post(row.number));
    let hole = first.and_then(|post| {
        let tops = post
            .post
            .arms()
            .filter_map(|arm| job.fence.runs().get(arm.run));
        let top = tops
            .map(|run| run.panel().top())
            .reduce(|a, b| if b > a { b } else { a });
        HolePicture::of(&post, top?)
    });
    let runs = 0..schedule.wind().runs().len();
    let pressures = runs
        .filter_map(|run| schedule.wind().picture(run))
        .collect();
    Ok(Sheet {
        job,
        governing,
        all: sheets,
        pressures,
        hole,
        cautions,
        document: site.document(),
        level: groundline::limit_state::LimitState::name(site.level()),
        rows,
    })
}

/// The row that governs: the higher utilization, then the greater depth.
fn worse<'r>(one: &'r Row, other: &'r Row) -> &'r Row {
    let higher = other.utilization > one.utilization;
    let equal = other.utilization == one.utilization;
    if higher || (equal && other.required > one.required) {
        other
    } else {
        one
    }
}
